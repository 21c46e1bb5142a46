"""What an animal looks like: what is visible of its genotype, and the cautions that go with it."""

from .cautions import BroodCaution, brood_cautions, caution_text, look_cautions, look_remarks
from .cues import Known, chance_of_answers, cue_chances
from .layers import Layer, layers_of
from .stacking import HasGenotype, Stack, Words, stack, stack_of
from .suggesting import Suggestion, suggestions
from .tastes import DEFAULT_TASTE, TASTES, Taste, checked_taste, leaning
from .verdicts import Verdict
from .visible import (
    Look,
    absent_events,
    carried,
    exact_events,
    likeliest_look,
    may_carry,
    merged,
    shown,
    wanted_events,
)

__all__ = [
    "DEFAULT_TASTE",
    "TASTES",
    "BroodCaution",
    "HasGenotype",
    "Known",
    "Layer",
    "Look",
    "Stack",
    "Suggestion",
    "Taste",
    "Verdict",
    "Words",
    "absent_events",
    "brood_cautions",
    "carried",
    "caution_text",
    "chance_of_answers",
    "checked_taste",
    "cue_chances",
    "exact_events",
    "layers_of",
    "leaning",
    "likeliest_look",
    "look_cautions",
    "look_remarks",
    "may_carry",
    "merged",
    "shown",
    "stack",
    "stack_of",
    "suggestions",
    "wanted_events",
]
