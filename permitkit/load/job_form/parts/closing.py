"""What is asked of the closing: people on foot, traffic, and the days of the work."""

from __future__ import annotations

from permitkit.load.job_form.question import BURIED, CROSSING, EVERY, Part, Question, at

__all__ = ["PARTS"]

_ON_LOT = BURIED[:2]

_TRAFFIC = (
    Question("traffic", "What is closed to people and cars, and what stays open."),
    Question(
        "traffic.walk_closed",
        "Whether the walk is closed.",
        "true",
        others=at(_ON_LOT, "false"),
        reads=("walk_closed",),
    ),
    Question(
        "traffic.walk_closed_days",
        "For how many days.",
        "3",
        others=at(_ON_LOT, "0"),
    ),
    Question(
        "traffic.lane_taken",
        "What part of the street is taken, if any.",
        '"parking lane"',
        others=at(_ON_LOT, '"none"'),
        reads=("closed_part",),
    ),
    Question(
        "traffic.width_taken",
        "How wide, from the curb face.",
        '"8 ft"',
        "all of that lane",
        outlets=CROSSING,
        reads=("traffic.taper",),
    ),
    Question(
        "traffic.lane_left",
        "What is left open beside it, to the center line or the far cars.",
        '"10 ft"',
        "reckoned from the street's width",
        outlets=CROSSING,
        reads=("traffic.lane",),
    ),
    Question(
        "traffic.taper",
        "The length of the taper before it.",
        '"28 ft"',
        "not stated",
        outlets=CROSSING,
        reads=("traffic.taper",),
    ),
    Question(
        "traffic.layout",
        "The layout of the traffic book it is set up by.",
        '"TA-28"',
        "not stated",
        reads=("traffic.layouts",),
    ),
    Question("traffic.set_by", "Who sets it up and keeps it.", '"the crew\'s foreman"', "the firm"),
    Question(
        "traffic.hours_from",
        "From what time of day.",
        '"08:00"',
        "not stated",
        reads=("traffic.hours",),
    ),
    Question(
        "traffic.hours_to",
        "To what time of day.",
        '"16:00"',
        "not stated",
        reads=("traffic.hours",),
    ),
    Question(
        "traffic.pause",
        "When nobody works in between.",
        '"12:00-12:30"',
        "no break",
    ),
    Question(
        "traffic.overnight",
        "What stands there overnight.",
        '"panel barricaded and lit; way round left in place"',
        "not stated",
    ),
    Question(
        "traffic.drive_blocked",
        "Whether a drive is blocked.",
        '"no"',
        reads=("traffic.tell_neighbours",),
    ),
    Question(
        "traffic.neighbours_told",
        "Whether the neighbors were told.",
        "true",
        reads=("traffic.tell_neighbours",),
    ),
    Question(
        "traffic.bus_stop_in_zone",
        "Whether a bus stop lies in the work.",
        "false",
        reads=("traffic.tell_neighbours",),
    ),
    Question("traffic.bin_day", "The day the bins go out.", '"Friday"', "not told"),
    Question(
        "traffic.way_round",
        "The way round for people on foot while the walk is closed.",
        left_out="there is none",
        outlets=CROSSING,
        reads=("access.way_round", "access.width"),
    ),
    Question(
        "traffic.way_round.where",
        "Where it goes, and between what.",
        '"in the parking lane, between two rows of edged barricades, ramps at both ends"',
    ),
    Question(
        "traffic.way_round.width",
        "Its clear width at the narrowest.",
        '"5 ft"',
        reads=("access.width",),
    ),
    Question(
        "traffic.way_round.detectable",
        "Whether a cane finds its edges.",
        "true",
        reads=("access.way_round",),
    ),
    Question(
        "traffic.way_round.ramps",
        "Whether it has ramps at the curb.",
        "true",
    ),
    Question(
        "traffic.way_round.signs_ahead",
        "Whether signs at the corners tell of it.",
        "true",
    ),
)

_DATES = (
    Question("dates", "The days of the work."),
    Question(
        "dates.issue_expected",
        "The day the permit is expected.",
        "2026-04-20",
        "the day of filing",
        reads=("dates.validity", "dates.start_by"),
    ),
    Question(
        "dates.start",
        "The first day of work.",
        "2026-04-27",
        reads=("season", "dates.lead", "dates.apply_ahead"),
    ),
    Question(
        "dates.concrete",
        "The day concrete is placed.",
        "2026-04-28",
        "not told",
        outlets=CROSSING,
        reads=("dates.concrete_season",),
    ),
    Question(
        "dates.restored",
        "The day on which walk, curb and pavement are back for good.",
        "2026-04-30",
        "the day the work is finished",
    ),
    Question(
        "dates.building_permit_until",
        "The day on which the building permit that this work belongs to runs out.",
        "2026-12-31",
        "no building permit, or its end is not known",
    ),
    Question(
        "dates.emergency",
        "The day an emergency began, where the work is one.",
        "2026-04-05",
        "no emergency",
        aside=EVERY,
        reads=("emergency",),
    ),
    Question(
        "dates.finish", "The last day of work.", "2026-04-30", reads=("days", "dates.complete_by")
    ),
    Question(
        "dates.inspections",
        "The inspections that are booked, in the town's words.",
        '["form and base before the pour", "final"]',
        "none is booked",
        reads=("dates.inspections",),
    ),
)

PARTS = (
    Part("people on foot, and traffic", _TRAFFIC),
    Part("the dates", _DATES),
)
