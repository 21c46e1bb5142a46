"""The Season tab: this season's pairings, their days and pages."""

__all__: list[str] = []
