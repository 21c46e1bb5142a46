"""Shows a chart that `pictures` made. Not clickable: what can be clicked is a widget of its own."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from ipywidgets import Output

from .markup import paragraph

__all__ = ["Chart"]

CONFIG = {
    "displaylogo": False,
    "showSendToCloud": False,
    "responsive": True,
    "modeBarButtonsToRemove": ["select2d", "lasso2d", "autoScale2d"],
}


class Chart(Output):  # type: ignore[misc]
    """A chart as widget state, so that it survives a reload of the page."""

    def __init__(self) -> None:
        super().__init__()
        self.add_class("xp-chart")

    def show(self, figure: Mapping[str, Any] | str, alt: str) -> None:
        """figure: data and layout for plotly, as a mapping or as JSON text. alt: what the chart shows, in words."""
        spec: dict[str, Any] = json.loads(figure) if isinstance(figure, str) else dict(figure)
        spec["config"] = {**CONFIG, **spec.get("config", {})}
        self._outputs(
            _output({"text/html": paragraph(alt, "xp-alt"), "text/plain": alt}),
            _output({"application/vnd.plotly.v1+json": spec, "text/plain": alt}),
        )

    def clear(self) -> None:
        """Shows nothing."""
        self._outputs()

    def _outputs(self, *outputs: dict[str, object]) -> None:
        self.outputs = outputs


def _output(data: Mapping[str, object]) -> dict[str, object]:
    return {"output_type": "display_data", "metadata": {}, "data": data}
