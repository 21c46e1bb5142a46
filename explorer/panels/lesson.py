"""A question that is guessed before its answer is shown, for the teaching notebook."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import anywidget
import traitlets
from ipywidgets import HTML, VBox, Widget

from .markup import paragraph
from .parts import row, show
from .stylesheet import style_sheet

__all__ = ["Choices", "Guess", "guess"]

ESM = """
function render({ model, el, signal }) {
  const add = (parent, tag, text) => {
    const made = document.createElement(tag);
    made.textContent = text;
    parent.append(made);
    return made;
  };
  el.classList.add("xp-choices");
  const group = add(el, "fieldset", "");
  add(group, "legend", model.get("question"));
  const buttons = model.get("choices").map((choice, number) => {
    const made = add(group, "button", choice);
    made.type = "button";
    made.setAttribute("data-lm-suppress-shortcuts", "true");
    made.addEventListener("click", () => { model.set("chosen", number); model.save_changes(); }, { signal });
    return made;
  });
  const answer = add(el, "div", "");
  answer.setAttribute("role", "status");
  const tell = () => {
    const chosen = model.get("chosen");
    buttons.forEach((made, number) => made.setAttribute("aria-pressed", String(number === chosen)));
    answer.replaceChildren();
    if (chosen < 0) return;
    for (const line of [model.get("verdicts")[chosen], ...model.get("because")]) add(answer, "p", line);
  };
  model.on("change:chosen", tell);
  signal.addEventListener("abort", () => model.off(null, tell));
  tell();
}
export default { render };
"""

CSS = """
.xp-workbench.xp-guess { max-width: 920px; margin: 2px 0 12px; padding: 6px 16px 14px;
  border: 1px solid var(--jp-border-color2); border-radius: 4px }
.xp-choices { font-size: 14px; line-height: 1.5; color: var(--jp-ui-font-color1) }
.xp-choices fieldset { display: flex; flex-wrap: wrap; gap: 8px; min-width: 0; margin: 0; border: 0; padding: 0 }
.xp-choices legend { padding: 4px 0 8px; font-size: 15px; font-weight: 600 }
.xp-choices button { min-height: 32px; padding: 4px 16px; border: 1px solid var(--xp-edge); border-radius: 3px;
  font: inherit; text-align: left; color: var(--jp-ui-font-color1); background: var(--jp-layout-color1);
  cursor: pointer }
.xp-choices button:hover { background: var(--jp-layout-color2) }
.xp-choices button[aria-pressed="true"] { border-color: var(--xp-hue); background: var(--xp-soft) }
.xp-choices [role="status"] p { margin: 6px 0 0; max-width: 76ch }
.xp-choices [role="status"] p:first-child { margin-top: 8px; font-size: 15px; font-weight: 600; color: var(--xp-hue) }
.xp-guess .xp-shown { align-items: flex-start; gap: 12px 40px; padding-top: 12px }
.xp-shown .widget-html { margin: 0 }
.xp-shown .xp-drawing { width: 410px; max-width: 100% }
.xp-shown .xp-caption { margin: 0 0 4px; font-size: 13px; color: var(--xp-quiet) }
.xp-shown table { border-collapse: collapse; border: 0; margin: 0; font-size: 13px; line-height: 1.4 }
.xp-shown table :is(th, td) { padding: 4px 20px 4px 0; border: 0; border-bottom: 1px solid var(--jp-border-color2);
  text-align: left; vertical-align: top; font-weight: 400; font-variant-numeric: tabular-nums; white-space: nowrap }
.xp-shown table thead th { color: var(--xp-quiet); font-weight: 600; text-align: left }
"""


class Choices(anywidget.AnyWidget):
    """The question with a button for each choice. chosen: number of the choice, -1 until then. verdicts: what is said
    of each choice. because: what is said after any.
    """

    _esm = ESM
    _css = CSS
    question = traitlets.Unicode("").tag(sync=True)
    choices = traitlets.List(traitlets.Unicode()).tag(sync=True)
    verdicts = traitlets.List(traitlets.Unicode()).tag(sync=True)
    because = traitlets.List(traitlets.Unicode()).tag(sync=True)
    chosen = traitlets.Int(-1).tag(sync=True)


class Guess(VBox):  # type: ignore[misc]
    """`asked` is the question, `shown` what comes to light with the answer."""

    def __init__(self, asked: Choices, shown: Sequence[Widget]) -> None:
        self.asked, self.shown = asked, row(shown)
        self.shown.add_class("xp-shown")
        show(self.shown, False)
        super().__init__([style_sheet(), self.asked, self.shown])
        for name in ("xp-workbench", "xp-guess"):
            self.add_class(name)
        self.asked.observe(lambda _: show(self.shown, bool(shown)), "chosen")

    def __repr__(self) -> str:
        return f"Guess: {self.asked.question}"


def guess(
    question: str,
    choices: Sequence[object],
    answer: object,
    because: str | Sequence[str],
    shown: Mapping[str, object] | None = None,
) -> Guess:
    """A question with a button for each choice; a click says whether it was right, and why.

    choices, answer: texts or numbers; the answer must be among the choices, each given once. because: the lines to read
    then. shown: caption -> what to see with it, side by side: a table (anything with `_repr_html_`, such as a
    DataFrame) or the text of an SVG drawing. Raises ValueError if the answer is no choice or a choice stands twice,
    TypeError if something cannot be shown.
    """
    texts, right = [str(choice) for choice in choices], str(answer)
    if right not in texts:
        raise ValueError(f"the answer must be one of the choices {texts}; found {right!r}")
    if len(set(texts)) < len(texts):
        raise ValueError(f"each choice must be given once; found {texts}")
    asked = Choices(
        question=question,
        choices=texts,
        verdicts=[f"Right: {text}." if text == right else f"Not quite. The answer: {right}." for text in texts],
        because=[because] if isinstance(because, str) else list(because),
    )
    return Guess(asked, [_captioned(caption, thing) for caption, thing in (shown or {}).items()])


def _captioned(caption: str, thing: object) -> HTML:
    if hasattr(thing, "_repr_html_"):
        css, drawn = "xp-table", thing._repr_html_()
    elif isinstance(thing, str) and thing.lstrip().startswith("<svg"):
        css, drawn = "xp-drawing", thing
    else:
        raise TypeError(f"{caption}: a table or the text of an SVG is needed, found {thing!r}")
    made = HTML((paragraph(caption, "xp-caption") if caption else "") + drawn)
    made.add_class(css)
    return made
