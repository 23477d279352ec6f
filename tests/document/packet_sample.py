"""A whole desk put together by hand, so that documents can be tested without the calculation. All of it is invented."""

import importlib.util
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

from generator.calc.findings import Budget, CostRow, GroupRow, Prompt, RatingRow, StateRow, SumRow, Task
from generator.calc.record import (
    About,
    Assumption,
    Basis,
    Change,
    Check,
    Compared,
    Missing,
    Reported,
    Step,
    Value,
    Window,
)
from generator.release.slices import (
    AcceptanceRow,
    Clause,
    Cover,
    Decision,
    Desk,
    FixedRow,
    Hazards,
    ItemRow,
    Masses,
    Money,
    NotePage,
    Notes,
    Numbers,
    Register,
    ReplyRow,
    Request,
    RevisionRow,
    Revisions,
    RoadLoads,
    Slice,
    TodoPage,
    TodoRow,
)

_FILE = Path(__file__).resolve().parent.parent / "unit" / "draw" / "desk_sample.py"
_SPEC = importlib.util.spec_from_file_location("drawn_desk_sample", _FILE)
drawn = importlib.util.module_from_spec(_SPEC)
_SPEC.loader.exec_module(drawn)

LB, IN = 0.45359237, 0.0254
HOSTILE = '<script>alert(1)</script> {{ 7*7 }} {% raw %} "quoted" & <b onclick="x()">bold</b> javascript:alert(1)'
LONG_WORD = "unbreakable" * 910
LONG_LINE = LONG_WORD[:240]

COVER = Cover(
    id="heron-sample",
    title="Sample gooseneck, 27 ft",
    summary="A self-built house on a gooseneck trailer with three rubber-torsion axles, "
    "moved monthly between long stays. Invented for trying out the documents.",
    owner="The owner",
    designer="The owner-builder",
    recipient="owner",
    purpose="for review",
    revision="P2",
    date="2026-11-20",
    status="for review",
    units="us",
    currency="USD",
    basis_hash="0123456789abcdef",
    tool="packet 1.0.0, reference data 2026-11",
)

HITCH = Step(
    "Load on the hitch",
    "H = W*(x_a - x_g)/(x_a - x_h)",
    "statics: moments about the axle group",
    (
        Value("W", 17400.0 * LB, "kg", "weights.yaml:3"),
        Value("x_a", 190.0 * IN, "m", "trailer.yaml:8"),
        Value("x_g", 141.0 * IN, "m"),
        Value("x_h", -84.0 * IN, "m", "trailer.yaml:4"),
    ),
    Value("H", 3112.0 * LB, "kg"),
)
AXLE = Step(
    "Worst axle",
    "F_w = G/n*(1 + e)**2",
    "equal arms with seat tolerance",
    (Value("G", 14288.0 * LB, "kg"), Value("n", 3.0, "1"), Value("e", 0.06, "1")),
    Value("F_w", 5351.0 * LB, "kg"),
)
SOLVED = Step(
    "Lift-off",
    "stiffness by stiffness until no support pulls down",
    "own solver, checked against a beam program",
    (Value("k_s", 3.0e5, "N/m:spring"), Value("d_h", 0.0127, "m")),
    Value("F_w", 5351.0 * LB, "kg"),
)


def about(title: str, topic: str, **more: object) -> About:
    return About(
        title,
        topic,
        "statics; makers' rating plates",
        "More load than the part is made for: it runs hot and can fail on the road.",
        "the maker of the axle",
        **more,
    )


def compared(
    demand: float,
    limit: float,
    sense: str = "<=",
    unit: str = "kg",
    share: float = 0.0,
    basis: Basis = Basis.TABLE,
    rests: tuple[str, ...] = ("seat.tolerance",),
) -> Compared:
    return Compared(
        Value("F", demand, unit), Value("L", limit, unit), sense, share, basis, frozenset(rests), (HITCH, AXLE, SOLVED)
    )


def checks() -> tuple[Check, ...]:
    """Every status, both senses, all kinds of ratio, long titles."""
    change = Change(
        "axles.station",
        "Axle group further aft",
        Value("x", 190.0 * IN, "m"),
        Value("x", 194.0 * IN, "m"),
        ("height.overall",),
    )
    made = [
        Check(
            "hitch.rating",
            about("Coupling carries the hitch load", "hitch", mandatory=True),
            "travel",
            compared(3112 * LB, 30000 * LB),
        ),
        Check(
            "tyre.1.axle_rating",
            about("Tyres of axle 1 carry its rating", "ratings", mandatory=True,
                  defer_to="the tyre maker's load table"),
            "travel",
            compared(7000 * LB, 6500 * LB),
            (change,),
        ),
        Check(
            "hitch.share.low",
            about("Enough load on the hitch to tow steadily", "hitch"),
            "travel",
            compared(0.179, 0.15, ">=", "%", 0.082),
        ),
        Check(
            "neck.rail_gap.pitched",
            about(
                "Gap between bed rail and neck when the truck pitches over a rise in the road",
                "neck",
                mandatory=True,
                defer_to="the truck's maker",
            ),
            "travel",
            compared(3.9 * IN, 4.0 * IN, ">=", "m"),
            (change, change),
        ),
        Check(
            "tow.payload",
            about("Truck carries hitch load, people and gear", "tow vehicle"),
            "travel",
            Missing(("tow.yaml: payload", "tow.yaml: people"), (HITCH,)),
        ),
        Check(
            "frame.fatigue",
            about("Neck root under repeated bending", "frame", defer_to="a licensed engineer"),
            "travel",
            Missing(("an engineer's calculation",)),
        ),
        Check(
            "height.limit",
            about("Height under the lowest limit of the route", "heights"),
            "shell",
            compared(158.9 * IN, 159.0 * IN, "<=", "m", 0.04),
        ),
        Check(
            "stability.memory",
            about("Yaw damping at speed", "stability"),
            "travel",
            compared(1.0, 2.0, basis=Basis.MEMORY, unit="1"),
        ),
        Check("zero.limit", about("No load where none may be", "hitch"), "bare", compared(10.0, 0.0)),
    ]
    made += [
        Check(
            f"jack.nose-{n}.load",
            about(f"Nose jack {n} lifts its share on a slope", "jacks"),
            "parked_heavy",
            compared((800.0 + 15 * n) * 1.0, 1500.0),
        )
        for n in range(40)
    ]
    return tuple(made)


def numbers() -> Numbers:
    q = (
        Reported("state.travel.mass", "Mass as towed", 17400 * LB, 16800 * LB, 18100 * LB, "kg", Basis.ESTIMATE, "up"),
        Reported(
            "state.travel.hitch", "Load on the hitch as towed", 3112 * LB, 2900 * LB, 3350 * LB, "kg", Basis.ESTIMATE
        ),
        Reported("state.travel.hitch_share", "Share on the hitch", 0.179, 0.168, 0.19, "%", Basis.ESTIMATE),
        Reported(
            "height.overall.unladen",
            "Highest point, lightest",
            158.9 * IN,
            158.0 * IN,
            159.7 * IN,
            "m",
            Basis.QUOTED,
            "up",
        ),
        Reported(
            "headroom.bed", "Headroom in the neck bedroom", 77.5 * IN, 77.5 * IN, 77.5 * IN, "m", Basis.TABLE, "down"
        ),
    )
    more = tuple(
        Reported(f"jack.nose.load-{n}", f"Nose jack load, attitude {n}", 800.0 + n, 780.0, 830.0, "kg", Basis.TABLE)
        for n in range(60)
    )
    windows = (
        drawn.NECK.window,
        drawn.placement().window,
        Window(
            "shut.window",
            "A decision with no value that works",
            0.5,
            0.4,
            0.45,
            None,
            "m",
            "the bed rail",
            "the height limit",
            (Change("a", "Lower the roof", Value("h", 3.2, "m"), Value("h", 3.1, "m")),),
        ),
    )
    return Numbers((*q, *more), checks(), windows)


def states() -> tuple[StateRow, ...]:
    rows = []
    for i, (name, towed) in enumerate(
        (
            ("bare", True),
            ("shell", True),
            ("dry", True),
            ("travel", True),
            ("travel_wet", True),
            ("parked_heavy", False),
        )
    ):
        m = (5200.0 + 3000 * i) * LB
        rows.append(
            StateRow(
                name,
                name.replace("_", " ").capitalize(),
                towed,
                m,
                m * 0.95,
                m * 1.06,
                3.6,
                0.01,
                1.5,
                m * 0.18 if towed else None,
                0.18 if towed else None,
                m * 0.82 if towed else None,
                (m * 0.27,) * 3 if towed else (),
                (m * 0.135,) * 3 if towed else (),
                (m * 0.135,) * 3 if towed else (),
                0.69,
                4.0,
            )
        )
    return tuple(rows)


def road() -> RoadLoads:
    parts = (
        ("tyres", 6500 * LB),
        ("wheels", 6600 * LB),
        ("hubs", 7000 * LB),
        ("axle", 7000 * LB),
        ("brakes", 7000 * LB),
    )
    ratings = tuple(RatingRow(n, 4760 * LB, 5351 * LB, parts, "tyres", 6500 * LB) for n in (1, 2, 3))
    wanted = (
        Reported("rating.gvwr.requested", "GVWR", 21000 * LB, 21000 * LB, 21000 * LB, "kg", Basis.TABLE, "up"),
        *(
            Reported(
                f"rating.gawr.{n}.requested",
                f"GAWR, axle {n}",
                7000 * LB,
                7000 * LB,
                7000 * LB,
                "kg",
                Basis.TABLE,
                "up",
            )
            for n in (1, 2, 3)
        ),
        Reported("rating.cargo", "Cargo left", 2100 * LB, 2100 * LB, 2100 * LB, "kg", Basis.TABLE, "down"),
    )
    return RoadLoads(states(), ratings, wanted)


def masses() -> Masses:
    groups = ("frame", "running_gear", "floor", "walls", "roof", "openings", "services", "furniture", "contents")
    items = tuple(
        ItemRow(
            f"{g}-{n}",
            f"{g.replace('_', ' ').capitalize()} item {n}, with some words on it",
            g,
            20.0 + n,
            18.0 + n,
            23.0 + n,
            0.3 * n,
            0.1,
            0.8,
            "estimate",
            "weights.yaml:3",
        )
        for g in groups
        for n in range(16)
    )
    return Masses(items, tuple(GroupRow(g, 800.0, 760.0, 860.0, 4.0, 1.0, 16) for g in groups))


def money() -> Money:
    sections = ("design", "trailer", "delivery", "shell", "windows", "services", "interior", "site")
    lines = tuple(
        CostRow(
            f"{s}-{n}",
            f"{s.capitalize()} line {n} of the budget",
            s,
            ("estimate", "quote", "ordered", "paid")[n % 4],
            Decimal(1),
            Decimal(900 + n),
            Decimal(1000 + n),
            Decimal(1400 + n),
            Decimal(80),
            Decimal(1080 + n),
            "order",
        )
        for s in sections
        for n in range(8)
    )
    sums = tuple(SumRow(s, 8, sum((r.total for r in lines if r.section == s), Decimal(0))) for s in sections)
    base = sum((r.total for r in lines), Decimal(0))
    prompts = tuple(
        Prompt(
            f"p{n}",
            f"Often forgotten thing {n}",
            "not priced" if n % 3 else "priced in line trailer-1",
            "It is bought late and in a hurry.",
            "$100 to $400",
        )
        for n in range(24)
    )
    curve = tuple(
        Decimal(round(float(base) * (0.92 + 0.012 * n + 0.0006 * (n - 10) ** 2 * (1 if n > 10 else -1))))
        for n in range(21)
    )
    return Money(
        Budget(
            "USD",
            lines,
            sums,
            tuple(SumRow(s, 16, base / 4) for s in ("estimate", "quote", "ordered", "paid")),
            tuple(
                SumRow(s, 10, base / 6) for s in ("deposit", "axles", "delivery", "shell", "closed_in", "first_move")
            ),
            base,
            base * Decimal("1.06"),
            base * Decimal("1.11"),
            base * Decimal("0.11"),
            0.08,
            prompts,
            curve,
        )
    )


CLAUSES = tuple(
    Clause(
        n,
        t,
        (
            (
                "Wanted",
                "What is asked for, in a sentence that says enough for a shop to price it without a telephone call.",
            ),
            ("Supplied by", "the shop"),
            ("Tolerance", "± 1/8″ on what fits the house, class B elsewhere"),
        ),
    )
    for n, t in enumerate(
        (
            "Scope",
            "Basis",
            "Material",
            "Welding",
            "Coating",
            "Coupling",
            "Brakes",
            "Lamps and wiring",
            "Jacks",
            "House interface",
            "Marking and papers",
            "Hold points",
            "Delivery",
            "Terms",
            "Who designs",
        ),
        1,
    )
)


def request() -> Request:
    reply = tuple(
        ReplyRow(
            f"{n}.1",
            f"Item {n} of the request",
            "as drawn on F1, to the clause of the same number",
            ("lb", "in", "", "days")[n % 4],
        )
        for n in range(1, 29)
    )
    acceptance = tuple(
        AcceptanceRow(
            str(n), f"Reading {n} of the finished trailer", "27′-0″", "26′-11 3/4″", "27′-0 1/4″", "steel tape"
        )
        for n in range(1, 19)
    )
    return Request(
        "RFQ-7", "2026-12-18, 17:00 local time", "2026-12-11", "the owner, by letter", 60, CLAUSES, reply, acceptance
    )


def hazards() -> Hazards:
    rows = tuple(
        TodoRow(
            f"Item {n}",
            "Chock both wheels of the other side, then set the stands before anyone goes near.",
            "photograph of the chocks",
            "ground gives or a stand leans",
            "the jack maker's manual",
        )
        for n in range(9)
    )
    return Hazards(
        tuple(
            TodoPage(i, t, "A load on a jack alone kills. Stands first, always.", rows)
            for i, t in (
                ("lifting", "Lifting and jacking"),
                ("hot-work", "Hot work"),
                ("wheels", "Wheels"),
                ("first-tow", "Hitching and first tow"),
            )
        )
    )


def slices() -> dict[str, Slice]:
    """All slices of the owner, by name."""
    return {
        "cover": COVER,
        "sheets": drawn.Sheets(drawn.SHEETS[drawn.OWNER]),
        "steel": drawn.STEEL,
        "envelope": drawn.ENVELOPE,
        "neck": drawn.NECK,
        "placement": drawn.placement(),
        "steel_loads": drawn.SteelLoads(drawn.beam()),
        "numbers": numbers(),
        "road": road(),
        "masses": masses(),
        "money": money(),
        "register": Register(
            tuple(
                Assumption(
                    f"seat.tolerance-{n}",
                    "Seats of the axles lie in one plane within a sixteenth of an inch",
                    "1/16″",
                    "common practice, no source",
                    "Axles share less evenly.",
                )
                for n in range(25)
            ),
            tuple(
                Task(f"t{n}", f"Weigh the truck with people and gear, full tank ({n})", "owner", "payload check")
                for n in range(9)
            ),
        ),
        "request": request(),
        "hazards": hazards(),
        "revisions": Revisions(
            (
                RevisionRow("P1", "2026-10-01", "owner", "First layout.", ("Neck at 8 ft.",)),
                RevisionRow("P2", "2026-11-20", "shop", "Axles moved.", ("Group 4 in aft.", "Tyres one step up.")),
            )
        ),
        "notes": Notes(
            (
                NotePage(
                    "To the shop",
                    "# Why\n\nWe move *monthly*.\n\n- light\n- stiff\n\n| a | b |\n|---|---|\n| 1 | 2 |\n",
                ),
            )
        ),
        "decision": Decision(
            tuple(
                FixedRow(
                    f"Neck underside {n}", "5′-4 1/2″", "5′-4″ to 5′-5 5/8″, a third of the way up", "steel is cut"
                )
                for n in range(7)
            ),
            "Order the axles once the truck's bed rail has been measured loaded.",
            "Every week of waiting moves delivery a week; the coating shop is booked eight weeks ahead.",
        ),
    }


def desk(units: str = "us", drop: tuple[str, ...] = (), **changed: Slice) -> Desk:
    """The owner's sample desk; `changed` replaces a slice, `drop` leaves one out."""
    held = slices() | changed
    held["cover"] = replace(held["cover"], units=units)
    return Desk(tuple(s for name, s in held.items() if name not in drop))


def fabricator() -> Desk:
    """What a shop would get."""
    return desk(
        drop=("money", "revisions", "decision", "masses", "register"),
        cover=replace(COVER, recipient="fabricator", purpose="for quote"),
    )


def hostile() -> Desk:
    """Texts that try to become something else, and texts that try to break the page."""
    bad = About(HOSTILE[:80], "hitch", HOSTILE, LONG_LINE, HOSTILE, HOSTILE, True)
    held = replace(
        numbers(),
        checks=(
            Check("a.b", bad, "travel", compared(1.0, 0.5)),
            Check("a.b", bad, "travel", Missing((HOSTILE, LONG_LINE))),
        )
        * 6,
    )
    return desk(
        numbers=held,
        cover=replace(COVER, title=HOSTILE[:80], summary=LONG_WORD, owner=HOSTILE, recipient="owner"),
        notes=Notes(
            (
                NotePage(
                    HOSTILE,
                    HOSTILE
                    + "\n\n[x](javascript:alert(1)) ![y](../../secret.png)\n\n<iframe src=x></iframe>\n\n"
                    + LONG_WORD,
                ),
            )
        ),
        decision=Decision((FixedRow(LONG_LINE, LONG_LINE, LONG_LINE, LONG_LINE),) * 9, LONG_WORD[:4000], HOSTILE * 30),
        register=Register(
            (Assumption("a", LONG_LINE, HOSTILE, HOSTILE, HOSTILE),), (Task("t", LONG_LINE, HOSTILE, HOSTILE),) * 9
        ),
        request=replace(
            request(), reply=(ReplyRow("=1", "=HYPERLINK(1)", "+1", "@x"), ReplyRow("1", HOSTILE, "\tx", "-2"))
        ),
    )
