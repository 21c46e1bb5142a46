"""What all tests share: where the project lies, how generated examples are drawn, and which tests run side by side."""

import os
from pathlib import Path

import pytest
from hypothesis import settings
from xdist.scheduler import LoadFileScheduling

__all__ = ["demo_collection", "project"]

settings.register_profile("default", deadline=None)
settings.register_profile("ci", deadline=None, derandomize=True, print_blob=True)
settings.load_profile("ci" if os.environ.get("CI") else "default")


class OneBrowser(LoadFileScheduling):
    """Each file on one worker, and all that drive a browser on the same one: two at a time fail under load."""

    def _split_scope(self, nodeid: str) -> str:
        return "browser" if "tests/browser/" in nodeid else str(super()._split_scope(nodeid))


def pytest_xdist_make_scheduler(config: pytest.Config, log: object) -> OneBrowser:
    return OneBrowser(config, log)


@pytest.fixture(scope="session")
def project() -> Path:
    """The project's top folder."""
    return Path(__file__).resolve().parent.parent


@pytest.fixture(scope="session")
def demo_collection(project: Path) -> Path:
    """The collection file that the workbench opens by default."""
    return project / "demo_collection.csv"
