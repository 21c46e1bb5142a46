"""The Path tab: the seasons that lead to the target, with room and money."""

__all__: list[str] = []
