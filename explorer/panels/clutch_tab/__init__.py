"""The Clutch book tab: what hatched, what it proves, what to hold back."""

__all__: list[str] = []
