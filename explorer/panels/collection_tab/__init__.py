"""The Collection tab: the animals, their records, weights and the keeper's own figures."""

__all__: list[str] = []
