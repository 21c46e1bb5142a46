"""What all tests share: where the project lies, and how generated examples are drawn."""

import os
from pathlib import Path

import pytest
from hypothesis import settings

__all__ = ["demo_collection", "project"]

settings.register_profile("default", deadline=None)
settings.register_profile("ci", deadline=None, derandomize=True, print_blob=True)
settings.load_profile("ci" if os.environ.get("CI") else "default")


@pytest.fixture(scope="session")
def project() -> Path:
    """The project's top folder."""
    return Path(__file__).resolve().parent.parent


@pytest.fixture(scope="session")
def demo_collection(project: Path) -> Path:
    """The collection file that the workbench opens by default."""
    return project / "demo_collection.csv"
