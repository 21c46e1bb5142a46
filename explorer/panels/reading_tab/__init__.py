"""The Read an animal tab: cues and what they point to."""

__all__: list[str] = []
