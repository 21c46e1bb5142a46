"""The Pairing tab: what two animals could give."""

__all__: list[str] = []
