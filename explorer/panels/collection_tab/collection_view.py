"""The Collection tab: links the widgets to the model."""

from __future__ import annotations

from ipywidgets import HBox, Layout, VBox

from ...collection import Finding
from ..desk import Desk
from ..guard import Guard
from ..markup import items, paragraph
from ..parts import button, row, show, words
from ..table_view import TableView
from .collection_model import TABLE, CollectionModel, Details
from .figures_view import Figures
from .file_opener import FileOpener
from .record_form import RecordForm
from .weighing_view import Weighing

__all__ = ["CollectionPanel"]

HINT = "Choose an animal in the table to see what it may carry, and to change its record."


class CollectionPanel:
    """`root` is the panel."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.model = CollectionModel(desk)
        self.guard = Guard("Collection")
        self.headline = words("xp-headline")
        self.findings = words("xp-findings")
        self.said = words("xp-said")
        self.table = TableView(caption="The animals of this collection", columns=list(TABLE), empty="no animals yet")
        self.table.add_class("xp-animals")
        self.table.layout = Layout(flex="1 1 720px", min_width="0")
        self.opener = FileOpener(self.model, self.guard, self.update)
        self.weighing = Weighing(desk, self.guard, self.update)
        self.figures = Figures(desk, self.guard)
        self.details = words("xp-details")
        self.edit = button("change this record", "xp-edit", self.guard, self._edit)
        self.form = RecordForm(self.model, self.guard, self._closed)
        self.side = VBox([self.details, self.edit, self.form.root], layout=Layout(flex="1 1 330px", max_width="480px"))
        self.side.add_class("xp-box")
        self.save = button("save the file", "xp-save", self.guard, self._save)
        self.overwrite = button("save over it", "xp-overwrite", self.guard, lambda: self._save(True))
        buttons = [
            button("open a file", "xp-open", self.guard, lambda: self.opener.show(True)),
            button("add an animal", "xp-add", self.guard, self._add),
            button("weigh-in", "xp-weigh", self.guard, lambda: self.weighing.show(not self.weighing.shown)),
            self.save,
            self.said,
            self.overwrite,
        ]
        sides = HBox([self.table, self.side])
        top = [self.headline, row(buttons), self.guard.message, self.opener.root, self.weighing.root, self.findings]
        self.root = VBox([*top, self.figures.root, sides])
        sides.add_class("xp-sides")
        self.root.add_class("xp-collection")
        self.table.observe(self.guard(lambda _: self._chosen()), "selected")
        for topic in ("animals", "season", "target"):
            desk.listen(topic, self.update)
        self.update()

    def update(self) -> None:
        """Shows the model as it is now."""
        self.headline.value = paragraph(self.model.headline)
        self.table.rows = self.model.rows
        self.findings.value = _findings(self.model)
        said = self.model.said or ("unsaved changes" if self.desk.unsaved else "")
        self.said.value = paragraph(said, "xp-problem" if self.desk.unsaved else "xp-good")
        self.save.disabled = not self.desk.unsaved
        self.save.button_style = "primary" if self.desk.unsaved else ""
        show(self.overwrite, self.model.conflict)
        self.weighing.update()
        self.figures.update()
        if self.table.selected not in (animal.id for animal in self.model.animals):
            self.table.selected = ""
        self._show_side()

    def _show_side(self) -> None:
        details, editing = self.model.details(self.table.selected), self.model.editing is not None
        self.details.value = _details(details) if details else paragraph(HINT, "xp-quiet")
        show(self.details, not editing)
        show(self.edit, details is not None and not editing)
        self.form.show(editing)

    def _chosen(self) -> None:
        if self.model.editing is None:
            self._show_side()
        elif self.table.selected != self.model.editing:
            if not self.form.changed:
                self._edit()
            else:
                self.form.problems.say("Save or cancel this record first; then the other can be shown.")
                self.table.selected = self.model.editing

    def _edit(self) -> None:
        self.model.editing = self.table.selected
        self.form.fill()
        self._show_side()

    def _add(self) -> None:
        if self.model.editing is not None and self.form.changed:
            self.form.problems.say("Save or cancel this record first; then another can be added.")
            return
        self.table.selected = self.model.editing = ""
        self.form.fill()
        self._show_side()

    def _closed(self, key: str) -> None:
        """The form is done; key: the animal it was about, "" for none."""
        self.model.editing = None
        self.table.selected = key
        self._show_side()

    def _save(self, overwrite: bool = False) -> None:
        self.model.save(overwrite)
        self.update()


def _details(details: Details) -> str:
    facts = "".join(paragraph(what, tag="dt") + paragraph(text, tag="dd") for what, text in details.facts)
    cautions = "".join(paragraph(f"Caution: {text}", "xp-caution") for text in details.cautions)
    return paragraph(details.heading, tag="h3") + cautions + f"<dl>{facts}</dl>" + items(details.remarks, "xp-note")


def _findings(model: CollectionModel) -> str:
    if not model.findings:
        return ""
    if model.desk.refused:
        name = model.desk.refused[0].name
        said = f"{name} could not be opened. Mend what is listed here in the file, save it there, and open it again."
        still = " The collection that was open is still shown below." if model.animals else ""
        top = paragraph(said + still, "xp-problem")
    else:
        left_out = " What cannot be read beside it is left out of account." if model.desk.season.refused else ""
        top = paragraph(f"Remarks on the file; none of them stops you.{left_out}", "xp-quiet")
    head = "".join(f'<th scope="col">{name}</th>' for name in ("row", "animal", "column", "found", "needed", "to do"))
    lines = "".join(f"<tr>{_cells(finding)}</tr>" for finding in model.findings)
    table = f'<table class="xp-finding-table"><thead><tr>{head}</tr></thead><tbody>{lines}</tbody></table>'
    return f'{top}<div class="xp-finding-scroll" role="region" aria-label="findings" tabindex="0">{table}</div>'


def _cells(finding: Finding) -> str:
    cells = (finding.row, finding.id, finding.column, finding.found, finding.needed, finding.advice)
    return "".join(paragraph(str(cell or ""), tag="td") for cell in cells)
