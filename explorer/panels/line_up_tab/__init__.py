"""The Line-up tab: one animal beside many."""

__all__: list[str] = []
