"""The Gene notes tab: what genes do, alone and together."""

__all__: list[str] = []
