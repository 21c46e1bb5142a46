"""The Gene notes tab by the state of its widgets; what a browser draws is tested there."""

from datetime import date
from pathlib import Path

import pytest
from ipywidgets import HTML, Widget

from explorer.panels.desk import Desk
from explorer.panels.gene_field import GeneField
from explorer.panels.notes_tab.matrix_view import MatrixView
from explorer.panels.notes_tab.notes_view import NotesPanel
from explorer.panels.notes_tab.taste_view import TasteView

EVIL = "<img src=x>"


def all_html(widget: Widget) -> str:
    own = widget.value if isinstance(widget, HTML) else ""
    return own + "".join(all_html(child) for child in getattr(widget, "children", ()))


@pytest.fixture
def panel(tmp_path: Path) -> NotesPanel:
    file = tmp_path / "mine.csv"
    rows = [f"F1,{EVIL},female,Leopard het Desert Ghost", "F2,Sedge,female,Pinstripe", "F3,Moth,female,Mojave"]
    file.write_text("id,name,sex,genes\n" + "\n".join(rows) + "\n", encoding="utf-8")
    desk = Desk(file, date(2026, 11, 25))
    assert desk.open(file)
    return NotesPanel(desk)


def test_views__carry_their_own_script_and_nothing_from_outside() -> None:
    for view in (GeneField(), MatrixView(), TasteView()):
        assert "export default { render }" in view._esm
        assert "https:" not in view._esm + view._css
        assert "innerHTML" not in view._esm


def test_panel__a_files_text_is_shown_as_text(panel: NotesPanel) -> None:
    panel.animal.value = "F1"
    assert "&lt;img src=x&gt; is Leopard het Desert Ghost" in panel.said.value
    assert panel.own.write("Leopard", 1, "white", 1, EVIL, EVIL) == ""
    shown = all_html(panel.root)
    assert f"{EVIL.replace('<', '&lt;').replace('>', '&gt;')} on Leopard" in shown
    assert "<img" not in shown


def test_panel__another_gene_is_set_beside_and_the_field_is_free_again(panel: NotesPanel) -> None:
    panel.another.take("Pinstripe")
    assert panel.another.value == ""
    assert "Leopard and Pinstripe help each other; nothing spoils." in panel.headline.value
    assert [slot.gene for slot in panel.slots if slot.gene] == ["Leopard", "Pinstripe"]
    assert panel.matrix.selected == ["Leopard", "Pinstripe"]
    panel.slots[0].copies.value = 2
    assert panel.model.chosen.look == {"Leopard": 2, "Pinstripe": 1}
    panel.slots[0].out.click()
    assert panel.model.chosen.look == {"Pinstripe": 1}
    assert panel.gene.value == "Pinstripe"
    assert panel.slot_row.layout.display == "none"


def test_panel__an_offer_mends_the_field_it_came_from(panel: NotesPanel) -> None:
    panel.another.take("Pinstrip")
    message, offers = panel.problems.widgets
    assert "Found &quot;Pinstrip&quot;" in message.value
    offers.children[0].click()
    assert panel.model.chosen.look == {"Leopard": 1, "Pinstripe": 1}
    panel.gene.take("Leopart")
    assert panel.gene.value == "Leopard"
    offers.children[0].click()
    assert panel.model.chosen.look == {"Leopard": 1}
    panel.another.take("Pinstripe")
    panel.gene.take("Leopard")
    assert panel.model.chosen.look == {"Leopard": 1}


def test_panel__no_two_sketches_share_their_ids(panel: NotesPanel) -> None:
    for genes in (("Clown",), ("Pinstripe",), ("Leopard", "Pinstripe"), ("Leopard", "Desert Ghost")):
        panel.gene.take(genes[0])
        for gene in genes[1:]:
            panel.another.take(gene)
        ids = [part.split('"')[0] for part in all_html(panel.root).split(' id="')[1:]]
        assert len(ids) == len(set(ids)) > 0


def test_panel__the_same_seed_draws_the_same_siblings(panel: NotesPanel) -> None:
    panel.seed.value = 7
    first = panel.forms.value
    panel._again()
    assert panel.seed.value == 8
    assert panel.forms.value != first
    panel.seed.value = 7
    assert panel.forms.value == first


def test_panel__what_is_folded_is_worked_out_when_it_is_opened(panel: NotesPanel) -> None:
    panel.matrix_fold._turn()
    panel.own.like("bright", -2)
    old = panel.matrix.cells
    panel.matrix_fold._turn()
    assert panel.matrix.cells != old


def test_panel__a_row_of_the_suggestions_adds_its_gene(panel: NotesPanel) -> None:
    best = panel.suggested.rows[0]["id"]
    panel.suggested.selected = best
    assert best in panel.model.chosen.look
    assert panel.suggested.selected == ""


def test_panel__refused_files_are_said_on_top_and_in_full(tmp_path: Path, panel: NotesPanel) -> None:
    (tmp_path / "mine.taste.csv").write_text(f"wish,weight\n{EVIL},7\n", encoding="utf-8")
    assert panel.desk.open(tmp_path / "mine.csv")
    assert "mine.taste.csv" in panel.refused.value
    assert "row 2, wish" in panel.opinions.refused.value
    assert "<img" not in all_html(panel.root)
    assert panel.guard.message.value == ""
