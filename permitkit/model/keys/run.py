"""Rule keys of the pipe run and the water."""

from __future__ import annotations

from permitkit.model.rules import RuleKey, Stacks, Stage, ValueKind
from permitkit.units import Kind

__all__ = ["KEYS"]

PIPE_KIND = RuleKey(
    "pipe.kind",
    ValueKind.WORDS,
    "Which pipe may be laid here?",
    blocking=True,
    pipes=True,
)
PIPE_SLOPE = RuleKey(
    "pipe.slope",
    ValueKind.LIMIT,
    "How steep must the pipe be?",
    quantity=Kind.SLOPE,
)
PIPE_COVER = RuleKey(
    "pipe.cover",
    ValueKind.LIMIT,
    "How much earth must lie over the pipe?",
    quantity=Kind.LENGTH,
    of=("pipe outside",),
    origin=("ground",),
)
PIPE_CLEANOUT = RuleKey(
    "pipe.cleanout_spacing",
    ValueKind.LIMIT,
    "How far apart may cleanouts be?",
    quantity=Kind.LENGTH,
    plain=True,
)
PIPE_CLEANOUT_AT_WALK = RuleKey(
    "pipe.cleanout_at_walk",
    ValueKind.YES_NO,
    "Must there be a cleanout before the walk?",
    plain=True,
)
PIPE_SHRINKS = RuleKey(
    "pipe.shrinks",
    ValueKind.STANCE,
    "May the bore grow smaller downstream (a reducer at the curb)?",
    words=("allowed", "barred"),
)
PIPE_UNDER_DRIVE = RuleKey(
    "pipe.under_drive",
    ValueKind.WORDS,
    "Which pipe may lie under a drive?",
    plain=True,
    pipes=True,
)
UTILITY_TOLERANCE = RuleKey(
    "utility.tolerance",
    ValueKind.LIMIT,
    "How near a marked utility must digging be by hand?",
    quantity=Kind.LENGTH,
    stacks=Stacks.STRICTEST,
    ends="at_least",
)
WATER_ALLOWED = RuleKey(
    "water.allowed",
    ValueKind.STANCE,
    "May this kind of water go to the street?",
    words=("allowed", "required", "barred", "exempt"),
    blocking=True,
)
WATER_SUMP_SEASON = RuleKey(
    "water.sump_season",
    ValueKind.SEASON,
    "In which part of the year may a sump discharge to the street?",
    plain=True,
)
WATER_RAIN = RuleKey(
    "water.rain",
    ValueKind.RAIN,
    "Which design rain is the run computed for, of what period and duration?",
)
WATER_FREEBOARD = RuleKey(
    "water.freeboard",
    ValueKind.LIMIT,
    "How far below the lowest opening must the water stay?",
    quantity=Kind.LENGTH,
    ends="at_least",
)
WATER_VELOCITY = RuleKey(
    "water.velocity",
    ValueKind.LIMIT,
    "How fast must the full pipe run to keep itself clean?",
    quantity=Kind.VELOCITY,
)
WATER_AIR_GAP = RuleKey(
    "water.air_gap",
    ValueKind.YES_NO,
    "Must a pump discharge through an air gap into the gravity line?",
)
WATER_DECLARATION = RuleKey(
    "water.declaration",
    ValueKind.SENTENCES,
    "What must the applicant declare about the kind of water?",
    stacks=Stacks.ALL,
    plain=True,
    stage=Stage.SIZE,
)
GUTTER_DEPTH = RuleKey(
    "gutter.depth",
    ValueKind.LIMIT,
    "How deep does the town take the gutter to run in the design storm?",
    quantity=Kind.LENGTH,
    plain=True,
)
GUTTER_SPREAD = RuleKey(
    "gutter.spread",
    ValueKind.LIMIT,
    "How far may gutter water spread into the street?",
    quantity=Kind.LENGTH,
    plain=True,
    ends="at_most",
)

KEYS: tuple[RuleKey, ...] = (
    PIPE_KIND,
    PIPE_SLOPE,
    PIPE_COVER,
    PIPE_CLEANOUT,
    PIPE_CLEANOUT_AT_WALK,
    PIPE_SHRINKS,
    PIPE_UNDER_DRIVE,
    UTILITY_TOLERANCE,
    WATER_ALLOWED,
    WATER_SUMP_SEASON,
    WATER_RAIN,
    WATER_FREEBOARD,
    WATER_VELOCITY,
    WATER_AIR_GAP,
    WATER_DECLARATION,
    GUTTER_DEPTH,
    GUTTER_SPREAD,
)
