"""One style sheet for all panels, by the colours of JupyterLab's own theme, light or dark."""

from __future__ import annotations

from ipywidgets import HTML

from .sketch_card import STYLE as SKETCHES

__all__ = ["STYLE", "style_sheet"]

STYLE = """
.xp-workbench { --xp-hue: #0b5357; --xp-soft: #dcebeb; --xp-edge: #6b7580; --xp-quiet: #52606d; --xp-warn: #8a3b00;
  --jp-widgets-color: var(--jp-ui-font-color1); --jp-widgets-label-color: var(--jp-ui-font-color1);
  --jp-widgets-font-size: 14px; --jp-widgets-inline-height: 30px;
  max-width: 1560px; padding: 4px 10px 16px; font-size: 14px; line-height: 1.45; color: var(--jp-ui-font-color1);
  overflow: visible }
body[data-jp-theme-light="false"] .xp-workbench { --xp-hue: #7cc4c6; --xp-soft: #1d4548; --xp-edge: #99a3ad;
  --xp-quiet: #b4bdc6; --xp-warn: #ffb27a;
  --jp-widgets-dropdown-arrow: url("data:image/svg+xml,%3Csvg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 18 18'\
%3E%3Cpath fill='none' stroke='%23ddd' stroke-width='2' d='M5 7l4 4 4-4'/%3E%3C/svg%3E") }
.xp-workbench p, .xp-workbench ul { margin: 0 0 4px }
.xp-workbench ul { padding-left: 20px }
.xp-workbench h3 { margin: 0 0 4px; font-size: 16px; font-weight: 600 }
.xp-workbench h4 { margin: 8px 0 2px; font-size: 14px; font-weight: 600 }
.xp-workbench .widget-html > .widget-html-content, .xp-workbench .jupyter-widget-html-content { font-size: 14px;
  line-height: 1.45;
  align-self: stretch }
.xp-workbench .jupyter-widgets { overflow: visible }
.xp-workbench .jupyter-button { width: auto; padding: 0 14px; border: 1px solid var(--xp-edge); border-radius: 3px;
  color: var(--jp-ui-font-color1); background: var(--jp-layout-color1) }
.xp-workbench .widget-vbox > .jupyter-button { align-self: flex-start }
.xp-workbench .jupyter-button:hover:enabled { background: var(--jp-layout-color2); box-shadow: none }
.xp-workbench .jupyter-button.mod-primary { color: var(--jp-layout-color1); background: var(--xp-hue);
  border-color: var(--xp-hue);
  font-weight: 600 }
.xp-workbench .jupyter-button.mod-primary:hover:enabled { filter: brightness(1.15); background: var(--xp-hue) }
.xp-workbench .jupyter-button:disabled { opacity: 1; color: var(--xp-quiet);
  border-color: var(--jp-border-color2); cursor: default }
.xp-workbench :is(button, input, select, textarea, summary):focus-visible { outline: 2px solid var(--xp-hue);
  outline-offset: 1px }
.xp-workbench :is(input, select, textarea) { border-color: var(--xp-edge) !important }
.xp-workbench .widget-checkbox { width: auto }

.jp-OutputArea:has(.xp-workbench) > .jp-OutputArea-promptOverlay { display: none }
.xp-headline p { margin: 4px 0 8px; font-size: 21px; line-height: 1.3; font-weight: 500;
  color: var(--jp-ui-font-color1) }
.xp-note, .xp-workbench .xp-quiet { color: var(--xp-quiet) }
.xp-caution { color: var(--xp-warn) }
.xp-problem { color: var(--xp-warn) }
.xp-good { color: var(--xp-hue); font-weight: 600 }
.xp-failure { border: 1px solid var(--xp-warn); border-radius: 3px; padding: 8px 12px; margin: 6px 0 }
.xp-failure pre { white-space: pre-wrap; font-size: 12px; max-height: 220px; overflow: auto }
.xp-box { border: 1px solid var(--jp-border-color2); border-radius: 4px; padding: 10px 14px;
  background: var(--jp-layout-color1) }
.xp-alt { position: absolute; width: 1px; height: 1px; margin: 0 !important; overflow: hidden; clip-path: inset(50%) }

.xp-top { flex-wrap: wrap; align-items: center; gap: 4px 28px; padding: 4px 0 8px }
.xp-top p { margin: 0 }
.xp-top .xp-season { width: auto }
.xp-top .xp-season label { width: auto; margin-right: 8px }
.xp-top .xp-season select { width: 110px }
.xp-target-line { align-items: center; gap: 8px }
.xp-row { flex-wrap: wrap; align-items: center; gap: 6px 8px }
.xp-sides { align-items: flex-start; gap: 20px; flex-wrap: wrap }
.xp-form { gap: 4px }
.xp-grid { display: grid; grid-template-columns: 1fr 1fr; gap: 4px 12px }
.xp-grid > .jupyter-widgets { flex-direction: column; align-items: stretch; min-width: 0; height: auto }
.xp-grid > .jupyter-widgets > label { width: auto; height: 22px; line-height: 22px; text-align: left; margin: 0 }
.xp-grid > .jupyter-widgets > :is(input, select, textarea) { flex: none; width: auto; font-family: inherit }
.xp-grid > .jupyter-widgets > select { height: 30px }
.xp-grid > :is(.xp-field-genes, .xp-field-notes) { grid-column: 1 / -1 }
.xp-finding-scroll { max-height: 250px; overflow: auto }
.xp-finding-table { border-collapse: collapse; margin: 4px 0 10px; font-size: 13px }
.xp-finding-table :is(th, td) { padding: 3px 10px; text-align: left; vertical-align: top;
  border-bottom: 1px solid var(--jp-border-color2) }
.xp-details dl { display: grid; grid-template-columns: auto 1fr; gap: 3px 12px; margin: 6px 0 10px }
.xp-workbench .xp-details dt { float: none; width: auto; font-weight: 400; color: var(--xp-quiet); white-space: nowrap }
.xp-workbench .xp-details dd { float: none; width: auto; margin: 0 }
.xp-job { align-items: center; gap: 12px }
.xp-job .progress-bar { background: var(--xp-hue) }

.xp-tabs { margin-top: 2px }
.xp-tabs > .lm-TabBar, .xp-tabs > .p-TabBar { min-height: 34px }
.xp-tabs > .lm-TabBar > .lm-TabBar-content { align-items: stretch }
.xp-tabs > .lm-TabBar .lm-TabBar-tab { flex: 0 0 auto; min-width: 110px; max-width: none; padding: 0 18px;
  line-height: 32px;
  font-size: 14px; color: var(--xp-quiet); background: var(--jp-layout-color2); transform: none !important }
.xp-tabs > .lm-TabBar .lm-TabBar-tab.lm-mod-current { color: var(--jp-ui-font-color1); font-weight: 600;
  background: var(--jp-layout-color1) }
.xp-tabs > .widget-tab-contents { padding: 8px 12px 12px; overflow: visible }
"""


def style_sheet() -> HTML:
    """The widget that brings the style; it takes no room."""
    widget = HTML(f"<style>{STYLE}{SKETCHES}</style>")
    widget.layout.display = "none"
    return widget
