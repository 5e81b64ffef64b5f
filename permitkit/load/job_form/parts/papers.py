"""What is asked of the papers: what goes in, what the town said, what was paid, what came back."""

from __future__ import annotations

from permitkit.load.job_form.question import EVERY, Part, Question

__all__ = ["PARTS"]

_PAPERS = (
    Question("papers", "What goes in with the application."),
    Question(
        "papers.applicant", "Who applies.", '"contractor"', reads=("applicant", "docs.who_applies")
    ),
    Question(
        "papers.applied_permits",
        "The permits applied for, by their names in the town's sheet.",
        '["street"]',
        "all that are needed",
    ),
    Question(
        "papers.owner_consent",
        "Whether the owner consented in writing.",
        "true",
        reads=("docs.consent",),
    ),
    Question(
        "papers.owner_occupier",
        "Whether the owner lives there.",
        "true",
        "not known; a rule that turns on it becomes a question",
        reads=("owner_occupier",),
    ),
    Question(
        "papers.stamped_by",
        "The engineer who stamps the drawings.",
        '"Tova Reyes, P.E."',
        "no engineer stamps them",
        reads=("packet.stamp",),
    ),
    Question(
        "papers.more_time",
        "Whether the permit's time is to be extended, and whether that is asked for in time.",
        '"none"',
        reads=("extension",),
    ),
    Question(
        "papers.hurry",
        "Whether a quick review is asked for.",
        "false",
        reads=("hurry",),
    ),
    Question(
        "papers.details_cited",
        "The town's standard details that the work is built by, with number and revision.",
        '["M-2 rev D"]',
        "none is cited",
        reads=("docs.details",),
    ),
    Question(
        "papers.tree_statement",
        "Whether the forester has given his word, where roots are near.",
        "false",
        reads=("restore.tree",),
    ),
    Question(
        "papers.attachment",
        "Each paper that goes in.",
        left_out="none goes in",
        reads=("docs.required", "docs.prior_approval", "docs.agreement"),
    ),
    Question("papers.attachment.kind", "What kind of paper it is.", '"application form"'),
    Question("papers.attachment.title", "Its title.", '"Street opening application"'),
    Question(
        "papers.attachment.file",
        "Its file, beside this one; it is bound in.",
        '"application.pdf"',
        "the packet draws it, or it goes in on paper",
        aside=EVERY,
    ),
    Question("papers.attachment.number", "Its number.", '"PW-7"', "it has none"),
    Question(
        "papers.attachment.named",
        "Whom it names, exactly as written on it.",
        '"Larkspur & Vane Drainage, Inc."',
        "not told",
        reads=("docs.same_name",),
    ),
    Question(
        "papers.attachment.edition",
        "The edition of the form.",
        '"2025-09"',
        "not told, which is a fault where the permit names one",
    ),
    Question(
        "papers.attachment.signed",
        "Whether it is signed.",
        "true",
        "not signed, which is a fault where it must be",
    ),
    Question(
        "papers.photo",
        "Each photograph of the site.",
        left_out="there is none",
        reads=("docs.photos",),
    ),
    Question("papers.photo.shows", "What it shows, in the town's words.", '"curb face with tape"'),
    Question("papers.photo.taken", "The day it was taken.", "2026-03-30"),
    Question(
        "papers.photo.file",
        "Its file, beside this one; it is printed.",
        '"curb.jpg"',
        "it goes in on paper",
        aside=EVERY,
    ),
    Question(
        "papers.photo.caption",
        "What stands under it.",
        '"Curb at station 12 ft, tape on the face"',
        "what it shows",
    ),
    Question("papers.photo.arrow", "Each arrow on it.", left_out="no arrow"),
    Question(
        "papers.photo.arrow.across",
        "Its point: how far from the left edge of the upright picture.",
        '"45 %"',
    ),
    Question("papers.photo.arrow.down", "Its point: how far down from the top.", '"60 %"'),
    Question("papers.photo.arrow.says", "What is lettered at it.", '"hole here"', "no words"),
)

_TOWN = (
    Question(
        "answer",
        "Each open question that the town answered, for this job only.",
        left_out="nothing was asked",
    ),
    Question(
        "answer.key",
        "The question's name, as check or why prints it.",
        '"water.allowed"',
    ),
    Question(
        "answer.value",
        "The answer, written as in a rule sheet.",
        '{ when = { water = "sump" }, stance = "allowed" }',
    ),
    Question("answer.who", "Who said so.", '"R. Okafor, town engineer"'),
    Question("answer.how", "How: by telephone, letter, at the counter.", '"telephone"'),
    Question("answer.on", "On what day.", "2026-03-30"),
    Question("answer.note", "In what words.", '"sump to 15 gpm accepted"', "no note"),
    Question(
        "waiver",
        "Each fault the town is asked to accept; it is printed as a request.",
        left_out="nothing is asked",
    ),
    Question("waiver.check", "The fault's name, as check prints it.", '"outlet-near-drive"'),
    Question(
        "waiver.item",
        "Which of several: the item check prints with it.",
        '"to the nearest drive"',
        "every one of that name",
    ),
    Question(
        "waiver.reason",
        "Why it must be so.",
        '"the light pole and the tree leave no other place on this frontage"',
    ),
    Question(
        "payment",
        "Each sum paid or put up.",
        left_out="nothing is paid",
        reads=("fees.lines", "fees.deposit", "fees.bond"),
    ),
    Question("payment.what", "What it is.", '"fee"'),
    Question("payment.amount", "How much.", "250"),
    Question("payment.how", "How: check and number, portal, surety.", '"check 2107"', "not told"),
    Question("payment.receipt", "The receipt's number.", '"P-30771"', "no receipt"),
    Question(
        "payment.line",
        "Which of the town's lines it pays, where one of several may be chosen.",
        '"surety bond"',
        "what the town names first",
        aside=EVERY,
    ),
    Question(
        "payment.permit",
        "For which permit, by its name in the town's sheet.",
        '"street"',
        "for the job as a whole",
    ),
)

_ROUNDS = (
    Question(
        "round",
        "Each time the packet came back: give it the next revision above.",
        left_out="it goes in for the first time",
    ),
    Question("round.revision", "The letter it was sent as.", '"A"'),
    Question("round.sent", "The day it was sent.", "2026-03-02"),
    Question("round.returned", "The day it came back.", "2026-03-09", "it is not back yet"),
    Question(
        "round.changed",
        "What was changed for this one, thing by thing.",
        '["hole moved 5 ft to the right, clear of the curb joint"]',
        "nothing",
    ),
    Question(
        "round.comment",
        "Each comment of the reviewer.",
        left_out="there was none",
    ),
    Question("round.comment.number", "Its number.", '"1"'),
    Question("round.comment.says", "What it says.", '"The hole is too near the joint."'),
    Question("round.comment.reply", "Your reply.", '"Moved; the joint is now 26 in away."'),
    Question("round.comment.sheets", "The sheets to look at.", '["curb section"]', "none is named"),
)

PARTS = (
    Part("the papers", _PAPERS),
    Part("what the town said, and what was paid", _TOWN),
    Part("what came back", _ROUNDS),
)
