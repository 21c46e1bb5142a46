"""What an animal looks like: what is visible of its genotype, and the cautions that go with it."""

from .cautions import BroodCaution, brood_cautions, caution_text, look_cautions, look_remarks
from .visible import Look, absent_events, carried, exact_events, may_carry, merged, shown, wanted_events

__all__ = [
    "BroodCaution",
    "Look",
    "absent_events",
    "brood_cautions",
    "carried",
    "caution_text",
    "exact_events",
    "look_cautions",
    "look_remarks",
    "may_carry",
    "merged",
    "shown",
    "wanted_events",
]
