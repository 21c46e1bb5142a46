"""The Gene notes tab: links the widgets to the model."""

from __future__ import annotations

from collections.abc import Callable

from ipywidgets import HTML, BoundedIntText, Dropdown, HBox, Layout, VBox

from ...pictures.matrix import LEGEND
from ..chosen_genes import MOST_GENES
from ..clock import fresh_seed
from ..desk import Desk
from ..fold import Fold
from ..gene_field import GeneField
from ..gene_slot import GeneSlot
from ..guard import Guard
from ..markup import paragraph
from ..offers import Problem
from ..parts import Problems, button, row, show, words
from ..table_view import TableView
from .matrix_view import MatrixView
from .notes_markup import STYLE, forms_html, names_html, pair_html, together_html, words_html
from .notes_model import NotesModel
from .notes_suggestions import COLUMNS
from .opinion_model import WEIGHTS, OpinionModel
from .opinion_view import OpinionForm
from .taste_view import TasteView

__all__ = ["NotesPanel"]

FULL = f"{MOST_GENES} genes are set side by side. Take one out to see what another would add."


class NotesPanel:
    """`root` is the panel."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.model, self.own = NotesModel(desk, fresh_seed()), OpinionModel(desk)
        self.guard = Guard("Gene notes")
        self._filling = False
        self.headline, self.said, self.refused = words("xp-headline"), words("xp-note"), words("xp-looks-refused")
        self.slots = [self._slot() for _ in range(MOST_GENES)]
        self.slot_row = row([slot.root for slot in self.slots])
        self.slot_row.add_class("xp-notes-slots")
        choice = self._choice()
        self.together, self.forms = words("xp-together"), words("xp-forms-shown")
        self.words, self.names = words("xp-zone-words"), words("xp-gene-names")
        self.words.layout = Layout(flex="2 1 690px", min_width="0")
        self.names.layout = Layout(flex="1 1 320px", min_width="0")
        details = HBox([self.words, self.names])
        details.add_class("xp-sides")
        self.opinions = OpinionForm(self.own, self.guard)
        self.opinion_fold = Fold("I see it otherwise", [self.opinions.root], self.guard, "xp-notes-opinions")
        self.suggestion_fold, self.matrix_fold = self._suggestions(), self._matrix()
        self.suggestion_fold.filled, self.matrix_fold.filled = self._show_suggestions, self._show_matrix
        self.root = VBox(
            [
                HTML(f"<style>{STYLE}</style>", layout=Layout(display="none")),
                self.guard.message,
                choice,
                *self.problems.widgets,
                self.said,
                self.slot_row,
                self.headline,
                self.refused,
                self.together,
                self.forms,
                details,
                self.suggestion_fold,
                self.matrix_fold,
                self.opinion_fold,
            ]
        )
        self.root.add_class("xp-notes-tab")
        for topic in ("animals", "looks"):
            desk.listen(topic, self.update)
        self.update()

    def update(self) -> None:
        """Shows the desk as it is now; the chosen genes stay."""
        self.model.refresh()
        groups = {True: "in your collection", False: "further genes" if self.model.collected else "all genes"}
        options = [
            {"name": gene.name, "also": ", ".join((*gene.synonyms, *gene.abbreviations)), "group": groups[mine]}
            for gene, mine in self.model.genes
        ]
        self.gene.options = self.another.options = options
        self._filling = True
        try:
            self.animal.options = [("choose an animal", ""), *self.model.animals]
            self.animal.value = ""
            self.taste.taste = dict(self.desk.taste)
        finally:
            self._filling = False
        self._show()

    def _choice(self) -> HBox:
        self.gene = GeneField(label="gene")
        self.another = GeneField(label="+ another gene", empty="set one beside it")
        self.gene.add_class("xp-notes-gene")
        self.another.add_class("xp-notes-another")
        self.animal = Dropdown(options=[("choose an animal", "")], description="start from")
        self.animal.add_class("xp-notes-animal")
        self.seed = BoundedIntText(self.model.seed, 0, 999_999, description="seed", layout=Layout(width="112px"))
        self.seed.style.description_width = "initial"
        self.seed.add_class("xp-notes-seed")
        self.problems = Problems(self.guard, lambda offer: self._look_up(offer.text, bool(offer.field)))
        self.gene.observe(self.guard(lambda _: self._look_up(self.gene.value)), "taken")
        self.another.observe(self.guard(lambda _: self._look_up(self.another.value, True)), "taken")
        self.animal.observe(self.guard(lambda change: self._start_from(change.new)), "value")
        self.seed.observe(self.guard(lambda _: self._redraw()), "value")
        again = button("redraw another sibling", "xp-notes-again", self.guard, self._again)
        made = HBox([self.gene, self.another, self.animal, row([again, self.seed])])
        made.add_class("xp-notes-choice")
        return made

    def _slot(self) -> GeneSlot:
        return GeneSlot(self.guard, lambda gene: self._do(lambda: self.model.chosen.take_out(gene)), self._copies)

    def _suggestions(self) -> Fold:
        self.taste = TasteView(taste=dict(self.desk.taste), words=[[w, said] for w, said in sorted(WEIGHTS.items())])
        self.taste.observe(self.guard(lambda change: self._like(change.old, change.new)), "taste")
        keep = button("keep this taste", "xp-taste-keep", self.guard, self._keep)
        self.kept = words("xp-taste-kept")
        self.suggested = TableView(caption="What each gene would add", height=330, empty=FULL)
        self.suggested.columns = list(COLUMNS)
        self.suggested.add_class("xp-suggestions")
        self.suggested.observe(self.guard(lambda change: self._add_suggested(change.new)), "selected")
        hint = words("xp-quiet")
        hint.value = paragraph(
            "How much nearer one more gene brings the look to your taste, which is met from −3 to 3. Choose a row to"
            " add that gene.",
            "xp-quiet",
        )
        inside = [self.taste, row([keep, self.kept]), hint, self.suggested]
        return Fold("What would add most, for your taste", inside, self.guard, "xp-notes-suggest", opened=True)

    def _matrix(self) -> Fold:
        self.matrix = MatrixView(legend=[list(one) for one in LEGEND])
        self.matrix.caption = "Who helps whom: the genes of the collection, two by two"
        self.matrix.observe(self.guard(lambda change: self._pair_chosen(change.new)), "selected")
        self.matrix.layout = Layout(flex="1 1 700px", min_width="0")
        self.pair = words("xp-pair-seen")
        self.pair.layout = Layout(flex="1 1 300px", min_width="0", max_width="430px")
        sides = HBox([self.matrix, self.pair])
        sides.add_class("xp-sides")
        return Fold("Who helps whom, in your collection", [sides], self.guard, "xp-notes-matrix", opened=True)

    def _look_up(self, text: str, beside: bool = False) -> None:
        chosen = self.model.chosen
        self._done(chosen.add(text) if beside else chosen.choose(text), "another" if beside else "")

    def _copies(self, gene: str, copies: int) -> None:
        if not self._filling and self.model.chosen.look.get(gene) != copies:
            self._done(self.model.chosen.set_copies(gene, copies))

    def _add_suggested(self, gene: str) -> None:
        if gene:
            self.suggested.selected = ""
            self._done(self.model.chosen.add_suggested(gene))

    def _pair_chosen(self, genes: list[str]) -> None:
        if len(genes) == 2 and set(genes) != set(self.model.chosen.look):
            self._do(lambda: self.model.show_pair(*genes))

    def _start_from(self, key: str) -> None:
        if key and not self._filling:
            self._do(lambda: self.model.chosen.start_from(key))

    def _do(self, action: Callable[[], None]) -> None:
        action()
        self._done(())

    def _done(self, problems: tuple[Problem, ...], field: str = "") -> None:
        """Shows what was set, or what is wrong with it; an offer knows the field that it would mend."""
        named = [Problem(p.text, tuple(type(o)(o.name, o.text, field) for o in p.offers)) for p in problems]
        self.problems.show(named)
        self._show()

    def _again(self) -> None:
        self.seed.value += 1

    def _redraw(self) -> None:
        self.model.seed = self.seed.value
        self._show_sketches()

    def _like(self, before: dict[str, int], after: dict[str, int]) -> None:
        for wish, weight in after.items() if not self._filling else ():
            if before.get(wish) != weight:
                self.kept.value = ""
                self.own.like(wish, weight)

    def _keep(self) -> None:
        said, kept = self.own.keep_taste()
        self.kept.value = paragraph(said, "" if kept else "xp-problem")

    def _show(self) -> None:
        model, chosen = self.model, self.model.chosen
        self._filling = True
        try:
            self.gene.value, self.another.value, self.animal.value = model.gene.name, "", ""
            self.another.disabled = len(chosen.look) == MOST_GENES
            for slot, (gene, copies) in zip(self.slots, [*chosen.look.items(), *[("", 0)] * MOST_GENES], strict=False):
                slot.show(gene, copies, chosen.offers_copies(gene) if gene else False)
        finally:
            self._filling = False
        show(self.slot_row, model.together)
        self.said.value = paragraph(chosen.said) if chosen.said else ""
        self.headline.value = paragraph(model.headline)
        self.refused.value = paragraph(self.own.refused_remark, "xp-problem") if self.own.refused else ""
        self._show_sketches()
        self.words.value, self.names.value = words_html(model), names_html(model)
        self._show_suggestions()
        self.opinions.show(model.gene)
        held = len(self.own.own)
        self.opinion_fold.rename(f"I see it otherwise ({held} written)" if held else "I see it otherwise")

    def _show_sketches(self) -> None:
        show(self.together, self.model.together)
        self.together.value = together_html(self.model) if self.model.together else ""
        self.forms.value = forms_html(self.model)
        self._show_matrix()

    def _show_suggestions(self) -> None:
        if self.suggestion_fold.opened:
            self.suggested.rows = self.model.suggestion_rows

    def _show_matrix(self) -> None:
        """What is worked out pair by pair is left until somebody looks."""
        if self.matrix_fold.opened:
            pair = self.model.pair
            with self.matrix.hold_sync():
                self.matrix.genes, self.matrix.cells = list(self.model.collected), self.model.cells
                self.matrix.summary = self.model.cells_in_words
                self.matrix.selected = list(pair.genes) if pair else []
            self.pair.value = pair_html(pair, self.model.seed)
