"""A link that opens a page to print in a tab of its own. The page is part of the link: nothing is fetched for it."""

from __future__ import annotations

import anywidget
import traitlets

__all__ = ["SheetLink"]

ESM = """
function render({ model, el, signal }) {
  el.classList.add("xp-sheet-link");
  const link = document.createElement("a");
  link.target = "_blank";
  link.rel = "noopener";
  el.replaceChildren(link);
  const forget = () => { if (link.href) URL.revokeObjectURL(link.href); };
  const fill = () => {
    forget();
    link.href = URL.createObjectURL(new Blob([model.get("page")], { type: "text/html;charset=utf-8" }));
    link.textContent = model.get("label");
  };
  model.on("change:page", fill);
  model.on("change:label", fill);
  signal.addEventListener("abort", () => { model.off(null, fill); forget(); });
  fill();
}
export default { render };
"""

CSS = """
.xp-sheet-link a { font-weight: 600; color: var(--xp-hue); text-decoration: underline }
.xp-sheet-link a:focus-visible { outline: 2px solid var(--xp-hue); outline-offset: 2px }
"""


class SheetLink(anywidget.AnyWidget):
    """page: a whole page as HTML, which must not run anything; label: what the link says."""

    _esm = ESM
    _css = CSS
    page = traitlets.Unicode("").tag(sync=True)
    label = traitlets.Unicode("").tag(sync=True)
