"""What the tests of this folder have in common: the bundled catalogue, and a keeper's folder made from text."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from explorer.catalogue import Catalogue, CatalogueError, load_catalogue


@pytest.fixture(scope="session")
def catalogue() -> Catalogue:
    return load_catalogue()


@pytest.fixture
def own(tmp_path: Path) -> Callable[[str], Catalogue]:
    """Loads the bundled facts with one file of a keeper's own, own.toml, that holds the text."""

    def load(text: str) -> Catalogue:
        (tmp_path / "own.toml").write_text(text, encoding="utf-8")
        return load_catalogue(tmp_path)

    return load


@pytest.fixture
def findings(own: Callable[[str], Catalogue]) -> Callable[[str], list[str]]:
    """What is found wrong in a keeper's own.toml that holds the text, one line a finding."""

    def load(text: str) -> list[str]:
        with pytest.raises(CatalogueError) as caught:
            own(text)
        assert str(caught.value) == "\n".join(map(str, caught.value.findings))
        return [str(finding) for finding in caught.value.findings]

    return load
