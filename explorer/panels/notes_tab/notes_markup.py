"""The Gene notes tab as HTML: sketches with what is named beneath, words zone by zone, reasons, names and sources."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from ...looks import caution_text
from ...looks.pairs import GenePair
from ...pictures import sketch_of
from ...pictures.matrix import pair_in_words
from ..markup import items, paragraph
from .notes_facts import Line
from .notes_model import Form, NotesModel, Said

__all__ = ["STYLE", "forms_html", "names_html", "pair_html", "together_html", "words_html"]

STYLE = """
.xp-workbench .xp-notes-tab h3 { margin-top: 10px }
.xp-notes-tab .xp-taste { margin: 2px 0 8px }
.xp-notes-tab .xp-notes-choice { align-items: center; gap: 8px 22px; flex-wrap: wrap }
.xp-workbench .xp-notes-choice > .widget-dropdown { width: 246px; margin: 0 }
.xp-workbench .xp-notes-choice > .widget-dropdown label { width: auto; margin-right: 8px }
.xp-notes-slot { align-items: center; gap: 6px; padding: 3px 4px 3px 10px; border: 1px solid var(--jp-border-color2);
  border-radius: 4px }
.xp-notes-slot p { margin: 0; font-weight: 600 }
.xp-workbench .xp-notes-slot .widget-toggle-buttons .jupyter-button { margin: 0; padding: 0 8px; width: auto }
.xp-workbench .xp-notes-slot .jupyter-button.mod-active { background: var(--xp-soft); border-color: var(--xp-hue);
  font-weight: 600; box-shadow: none }
.xp-forms { display: grid; grid-template-columns: repeat(3, minmax(0, 1fr)); gap: 6px 22px; margin: 0 }
.xp-workbench figure.xp-form-seen { margin: 0 }
.xp-form-seen figcaption { font-size: 14px }
.xp-form-seen svg { display: block; width: 100%; height: auto }
.xp-form-none { display: flex; align-items: center; justify-content: center; aspect-ratio: 520 / 200; padding: 0 24px;
  box-sizing: border-box; text-align: center; border: 1px dashed var(--xp-edge); border-radius: 6px;
  color: var(--xp-quiet) }
.xp-workbench .xp-form-seen ul { margin: 4px 0 0; columns: 2 150px; column-gap: 18px; font-size: 13px }
.xp-workbench .xp-form-seen p { margin: 4px 0 0; font-size: 13px }
.xp-workbench .xp-form-seen p.xp-form-title { margin: 0 0 4px; font-size: 14px; font-weight: 600 }
.xp-notes-together { display: grid; grid-template-columns: minmax(0, 11fr) minmax(0, 10fr); gap: 8px 26px }
.xp-said { margin: 0 0 8px }
.xp-workbench .xp-said li { margin-bottom: 4px }
.xp-workbench .xp-said small, .xp-word-table small { color: var(--xp-quiet); font-size: 12px }
.xp-word-table { border-collapse: collapse; width: 100%; font-size: 13px }
.xp-word-table :is(th, td) { padding: 4px 12px 4px 0; text-align: left; vertical-align: top; font-weight: 400;
  border-bottom: 1px solid var(--jp-border-color3) }
.xp-word-table thead th { color: var(--xp-quiet) }
.xp-word-table tbody th { font-weight: 600; white-space: nowrap }
.xp-word-table thead th:nth-child(2) { width: 98px }
.xp-word-table thead th:nth-child(4) { width: 192px }
.xp-word-table thead th:last-child { width: 92px }
.xp-word-table td:nth-last-child(-n + 2) { color: var(--xp-quiet) }
.xp-workbench .xp-word-table tr.xp-own td { font-weight: 600; color: var(--jp-ui-font-color1) }
.xp-workbench dl.xp-names { display: grid; grid-template-columns: max-content 1fr; gap: 3px 14px; margin: 0;
  font-size: 13px }
.xp-workbench .xp-names :is(dt, dd) { float: none; width: auto; margin: 0; padding: 0; font-weight: 400;
  overflow-wrap: anywhere }
.xp-workbench .xp-names dt { color: var(--xp-quiet) }
.xp-workbench .xp-fold { margin-top: 14px; padding: 0 12px 0 8px; border: 0; font-size: 16px; font-weight: 600;
  background: none }
.xp-workbench .xp-suggestions [data-key="helps"] { width: 34% }
.xp-workbench .xp-suggestions [data-key="spoils"] { width: 26% }
.xp-workbench .xp-suggestions [data-key="cautions"] { width: 22% }
.xp-workbench .xp-pair-seen { padding: 2px 0 0 4px }
"""


def forms_html(model: NotesModel) -> str:
    """The first gene with no, one and two copies, side by side."""
    alone = paragraph(f"{model.gene.name} by itself", tag="h3") if model.together else ""
    return f'{alone}<div class="xp-forms">{"".join(_form(form, model.seed) for form in model.forms)}</div>'


def together_html(model: NotesModel) -> str:
    """All chosen genes on one animal, and what they do to each other."""
    nickname = f"The trade calls it {model.nickname}." if model.nickname else ""
    form = Form(model.stack.text, model.stack, (nickname,) if nickname else ())
    several = len(model.stack.layers) > 1
    right = "".join(
        [
            _said("of one complex", model.compounds, "") if model.compounds else "",
            _said("helps", model.helps, "No two of these genes do.") if several else "",
            _said("spoils", model.spoils, "No two of these genes do.") if several else "",
            _said("covered", model.covered, "Nothing is covered.") if several else "",
            _cautions(model.cautions, "No caution is recorded for such an animal.", "h4"),
        ]
    )
    return f'<div class="xp-notes-together">{_form(form, model.seed)}<div>{right}</div></div>'


def words_html(model: NotesModel) -> str:
    """Zone by zone in words, each with its evidence and whose opinion it is; then certain bases, and what is open."""
    head = ("zone", "form", "what is seen", "how it is known", "who says so")
    base = ("base", *head[1:])
    bases = _table(f"{model.gene.name} on certain bases", base, model.bases) if model.bases else ""
    open_ = "".join(paragraph(line, "xp-quiet") for line in model.unknown)
    none = paragraph("Nothing is established.", "xp-quiet")
    return (_table("Zone by zone", head, model.words) if model.words else none) + open_ + bases


def names_html(model: NotesModel) -> str:
    """Cautions where one gene is looked up, and its names, inheritance, doubts and sources."""
    facts = "".join(paragraph(what, tag="dt") + paragraph(text, tag="dd") for what, text in model.names)
    cautions = "" if model.together else _cautions(model.cautions, "None is recorded.", "h3")
    names = paragraph(f"{model.gene.name}: names, inheritance, sources", tag="h3")
    return f'{cautions}{names}<dl class="xp-names">{facts}</dl>'


def pair_html(pair: GenePair | None, seed: int) -> str:
    """The pair that was chosen in the square, or what to do there."""
    if pair is None:
        return paragraph("Choose a cell to see the two genes together, here and at the top.", "xp-quiet")
    stack = pair.stack
    said = [_line(verdict.reason, verdict.evidence) for verdict in (*stack.helps, *stack.clashes, *stack.hidden)]
    cautions = "".join(paragraph(f"Caution: {caution_text(one)}", "xp-caution") for one in stack.cautions)
    text = paragraph(f"{pair_in_words(pair)}.") + cautions
    return _form(Form(stack.text, stack), seed, False) + text + _list(said)


def _form(form: Form, seed: int, differences: bool = True) -> str:
    title = paragraph(form.title, "xp-form-title")
    lines = "".join(paragraph(line, "xp-quiet") for line in form.lines)
    if form.stack is None:
        return f'<figure class="xp-form-seen">{title}<div class="xp-form-none">not established</div>{lines}</figure>'
    seen = items(form.stack.notable) if differences else ""
    drawn = sketch_of(form.stack, seed, f"notes, {form.title if differences else 'a pair'}")
    return f'<figure class="xp-form-seen">{title}{drawn}<figcaption>{lines}{seen}</figcaption></figure>'


def _said(heading: str, found: Sequence[Said], none: str) -> str:
    said = _list(_line(one.text, one.evidence) for one in found) if found else paragraph(none, "xp-quiet")
    return paragraph(heading, tag="h4") + said


def _line(text: str, evidence: str) -> str:
    return f"<li>{paragraph(text, tag='span')} {paragraph(f'[{evidence}]', tag='small')}</li>"


def _list(lines: Iterable[str]) -> str:
    made = "".join(lines)
    return f'<ul class="xp-said">{made}</ul>' if made else ""


def _cautions(texts: Sequence[str], none: str, tag: str) -> str:
    said = items(texts, "xp-caution") or paragraph(none, "xp-quiet")
    return paragraph("Cautions", tag=tag) + said


def _table(caption: str, head: Sequence[str], lines: Sequence[Line]) -> str:
    top = "".join(f'<th scope="col">{name}</th>' for name in head)
    rows, before = [], ""
    for line in lines:
        where = line.where if line.where != before else ""
        before = line.where
        zone = paragraph(where, tag="th") if where else "<td></td>"
        cells = "".join(paragraph(text, tag="td") for text in (line.form, line.text, line.evidence, line.who))
        own = "" if line.who == "the catalogue" else ' class="xp-own"'
        rows.append(f"<tr{own}>{zone}{cells}</tr>")
    table = f'<table class="xp-word-table"><thead><tr>{top}</tr></thead><tbody>{"".join(rows)}</tbody></table>'
    return paragraph(caption, tag="h3") + table
