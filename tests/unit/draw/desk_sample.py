"""A believable gooseneck put together by hand, so that drawings can be tested without the calculation. Invented."""

import math
from dataclasses import replace

from generator.calc.findings import Beam, Chain, ChainStep, JackRecord, NeckRecord, RoofRow, SupportForce, Sweep
from generator.calc.record import Window
from generator.model.types import Piece
from generator.release.grants import OWNER, SHEETS
from generator.release.slices import (
    AxlePlace,
    Box,
    Cover,
    Desk,
    Envelope,
    Hitched,
    HouseZone,
    Neck,
    Placement,
    Running,
    Shape,
    Sheets,
    Slice,
    Sprung,
    StandPair,
    Steel,
    SteelLoads,
    SteelPoint,
    Within,
)

IN, LB, FT = 0.0254, 0.45359237, 0.3048
G = 9.80665

COVER = Cover(
    id="heron-sample",
    title="Sample gooseneck",
    summary="A sample.",
    owner="The owner",
    designer="The owner",
    recipient="fabricator",
    purpose="quote",
    revision="P2",
    date="2026-11-20",
    status="FOR REVIEW",
    units="us",
    currency="USD",
    basis_hash="0123456789abcdef",
    tool="packet 0",
)

DECK, NECK_FRONT, PIN = 27.0 * FT, -8.0 * FT, -7.0 * FT
STATIONS = tuple((190.0 + 38.0 * k) * IN for k in (-1, 0, 1))


def _piece(mark: str, title: str, section: str, run: str, *box: float) -> Piece:
    return Piece(mark, title, section, "A500 C", run, *(b * IN for b in box), mass=20.0)


def pieces() -> tuple[Piece, ...]:
    """Rails, crossmembers at 16 in, outriggers, neck rails and their crossmembers, risers, coupler tube."""
    out: list[Piece] = []
    for s in (-1, 1):
        a, b = sorted((s * 36.0, s * 33.0))
        out.append(_piece("r1", "main rail", "HSS8x3x3/16", "lengthwise", 0.0, 324.0, a, b, -8.75, -0.75))
        out.append(_piece("n1", "neck rail", "HSS6x3x3/16", "lengthwise", -96.0, 3.0, a, b, 37.5, 43.5))
        out.append(_piece("n2", "riser", "HSS6x3x3/16", "upright", 0.0, 3.0, a, b, -0.75, 37.5))
        for k in range(0, 21, 2):
            x = 2.0 + 16.0 * k
            if not 132.0 < x < 248.0:
                c, d = sorted((s * 36.0, s * 49.0))
                out.append(_piece("c2", "outrigger", "C4x5.4", "crosswise", x - 0.8, x + 0.8, c, d, -4.75, -0.75))
    for k in range(21):
        x = 2.0 + 16.0 * k
        out.append(_piece("c1", "crossmember", "C4x5.4", "crosswise", x - 0.8, x + 0.8, -33.0, 33.0, -4.75, -0.75))
    for k in range(6):
        x = -94.0 + 18.0 * k
        out.append(_piece("n3", "neck crossmember", "C4x5.4", "crosswise", x - 0.8, x + 0.8, -33.0, 33.0, 39.5, 43.5))
    out.append(_piece("n4", "coupler tube", "HSS5x5x3/8", "upright", -86.5, -81.5, -2.5, 2.5, 31.5, 43.5))
    return tuple(out)


LATERAL = Chain(
    "lateral",
    "Hub face to outside of tyres",
    "travel",
    (
        ChainStep("hub face to hub face", 88.0 * IN, "trailer.yaml"),
        ChainStep("two tyres outside", 9.0 * IN, "trailer.yaml"),
    ),
    97.0 * IN,
    102.0 * IN,
)

JACKS = (
    JackRecord(
        "nose",
        "Nose jack pair",
        -10.0 * IN,
        30.0 * IN,
        2,
        "shared shaft",
        1500.0,
        750.0,
        1100.0,
        1300.0,
        4536.0,
        5443.0,
        0.50,
        0.61,
        120.0,
        300.0,
        400.0,
        55.0,
        90.0,
        80.0,
        "one motor lifts both legs",
    ),
)

STEEL = Steel(
    pieces=pieces(),
    deck_length=DECK,
    deck_width=98.0 * IN,
    rails_outside=72.0 * IN,
    deck_thickness=0.75 * IN,
    rail_underside=-8.75 * IN,
    neck_front=NECK_FRONT,
    neck_width=98.0 * IN,
    neck_rails_outside=72.0 * IN,
    neck_underside=37.5 * IN,
    neck_frame_depth=6.0 * IN,
    pin_station=PIN,
    coupler_low=22.0 * IN,
    coupler_high=30.0 * IN,
    coupler_set=26.0 * IN,
    ball_height=38.5 * IN,
    ball_diameter=2.3125 * IN,
    coupler_rating=30000.0 * LB,
    deck_height_laden=27.0 * IN,
    deck_height_bare=29.5 * IN,
    boxes=(Box(136.0 * IN, 244.0 * IN, 36.0 * IN, 12.0 * IN),),
    axles=tuple(
        AxlePlace(n + 1, x, x + 8.0 * IN, 7000.0 * LB, 88.0 * IN, "electric 12 x 2") for n, x in enumerate(STATIONS)
    ),
    spacing=38.0 * IN,
    tyre_diameter=30.8 * IN,
    tyre_width=9.0 * IN,
    tyre_radius_laden=14.6 * IN,
    track=88.0 * IN,
    tube_to_deck=11.0 * IN,
    arm=6.0 * IN,
    arm_angle_laden=0.05,
    bracket_spacing=69.0 * IN,
    jacks=JACKS,
    jack_mount=(0.4,),
    stands=(StandPair("fore", 40.0 * IN, 34.5 * IN, 6000.0 * LB), StandPair("aft", 300.0 * IN, 34.5 * IN, 6000.0 * LB)),
    points=(
        SteelPoint("lift-fore", "lift", 60.0 * IN, 36.0 * IN, 5000.0 * LB),
        SteelPoint("lift-aft", "lift", 280.0 * IN, 36.0 * IN, 5000.0 * LB),
        SteelPoint("tie-fore", "tie", 20.0 * IN, 36.0 * IN, 3000.0 * LB),
        SteelPoint("tie-aft", "tie", 318.0 * IN, 36.0 * IN, 3000.0 * LB),
        SteelPoint("anchor-1", "anchor", 34.0 * IN, 48.0 * IN, 3000.0 * LB),
        SteelPoint("anchor-2", "anchor", 290.0 * IN, 48.0 * IN, 3000.0 * LB),
    ),
    chain_anchor=-80.0 * IN,
    steel_mass=1600.0,
    travel_mass=17400.0 * LB,
    bare_mass=5200.0 * LB,
    lateral=LATERAL,
    tolerance_class="B",
    hitched=Hitched(),
    sprung=Sprung(travel_left=2.4 * IN, over_tyre=1.2 * IN),
    shapes=(
        Shape("r1", "HSS", 0.174 * IN, 0.174 * IN),
        Shape("c1", "C", 0.184 * IN, 0.296 * IN, (("aft", tuple(round((2.0 + 16.0 * k) * IN, 4) for k in range(21))),)),
    ),
    running=Running(
        start_angle=math.radians(22.5),
        seat_tolerance=IN / 16.0,
        offset=0.0,
        hub_ratings=(7000.0 * LB,) * 3,
        tyre="ST235/80R16, trailer, E",
        tyre_load=3520.0 * LB,
        tyre_pressure=551_581.0,
        wheel="16 x 6 in",
        wheel_load=3750.0 * LB,
        studs="8 on 6 1/2 in",
        spare="One",
        to_spindle=tuple(math.hypot(x - PIN, 44.0 * IN) for x in STATIONS),
        diagonal=math.hypot(DECK, 98.0 * IN),
        within=(Within("axle-square", "Coupler centre to axle ends", "within 1/8″", "tape"),),
    ),
)


def _chain(id: str, title: str, state: str, deck: float) -> Chain:
    steps = (
        ChainStep("main-deck top", deck, "height.deck"),
        ChainStep("finished floor above deck", 1.25 * IN, "house.yaml"),
        ChainStep("floor to ridge", 128.0 * IN, "house.yaml"),
        ChainStep("vent above ridge", 2.0 * IN, "house.yaml"),
        ChainStep("hitch height error", 0.6 * IN, "trailer.yaml"),
    )
    return Chain(id, title, state, steps, sum(s.value for s in steps), 162.0 * IN)


ENVELOPE = Envelope(
    front=NECK_FRONT,
    rear=DECK + 0.5 * FT,
    width=100.0 * IN,
    length=35.5 * FT,
    zones=(
        HouseZone("bed", "Neck bedroom", NECK_FRONT, 0.0, 44.5 * IN, 122.0 * IN, 128.0 * IN),
        HouseZone("main", "Living", 0.0, DECK, 1.25 * IN, 118.0 * IN, 129.25 * IN),
    ),
    roof=(
        RoofRow("ridge", "Ridge", 2.0, 129.25 * IN, 156.25 * IN, 158.0 * IN, "shell"),
        RoofRow("vent", "Roof vent", 5.0, 131.25 * IN, 158.25 * IN, 158.9 * IN, "dry"),
    ),
    chains=(
        _chain("height-laden", "Height, laden", "travel", 27.0 * IN),
        _chain("height-light", "Height, lightest roofed state", "shell", 28.3 * IN),
    ),
    height_limit=162.0 * IN,
    vehicle_bed_rail=58.0 * IN,
    vehicle_ball=38.5 * IN,
    vehicle_ball_to_cab=50.0 * IN,
    vehicle_ball_to_bed_end=46.0 * IN,
    vehicle_cab_height=80.0 * IN,
    vehicle_wheelbase=172.0 * IN,
    vehicle_ball_behind_axle=-4.0 * IN,
)

NECK = Neck(
    NeckRecord(
        low_rail=64.0 * IN,
        low_coupler=60.5 * IN,
        high_coupler=68.5 * IN,
        high_limit=65.6 * IN,
        low=64.0 * IN,
        high=65.6 * IN,
        chosen=64.5 * IN,
        deck_top=71.5 * IN,
        headroom=77.5 * IN,
        gap_level=6.5 * IN,
        gap_pitched=3.9 * IN,
        gap_rolled=3.4 * IN,
        bed_rail=58.0 * IN,
        ball=38.5 * IN,
        coupler_set=26.0 * IN,
        step_between_floors=43.25 * IN,
    ),
    Window(
        "neck.window",
        "Neck underside above ground",
        64.0 * IN,
        65.6 * IN,
        64.5 * IN,
        64.8 * IN,
        "m",
        "gap over the bed rail",
        "height limit over the neck",
    ),
)


def placement() -> Placement:
    """Straight-line shares and a smooth probability, as placement gives them."""
    xs = tuple((150.0 + 80.0 * i / 60.0) * IN for i in range(61))
    share = tuple(0.33 - 0.30 * (x / IN - 150.0) / 80.0 for x in xs)
    hitch = tuple(17400.0 * LB * s for s in share)
    axle = tuple(17400.0 * LB * (1.0 - s) / 3.0 * 1.08 for s in share)
    ok = tuple(1.0 / (1.0 + math.exp(-(x / IN - 182.0) / 2.0)) / (1.0 + math.exp((x / IN - 200.0) / 2.0)) for x in xs)
    sweep = Sweep(xs, share, hitch, axle, ok, 0.15, 0.22, 4200.0 * LB, 6800.0 * LB, 160.0 * IN, 215.0 * IN)
    return Placement(
        sweep,
        Window(
            "axles.window",
            "Station of the axle group",
            180.0 * IN,
            198.0 * IN,
            190.0 * IN,
            189.0 * IN,
            "m",
            "hitch load of the coupler",
            "least hitch share",
        ),
    )


def beam() -> Beam:
    """A uniform load with a heavier middle on hitch and three axles; shear and moment by running sums."""
    low, high, n = NECK_FRONT, DECK, 211
    xs = [low + (high - low) * i / (n - 1) for i in range(n)]
    w = [5200.0 if x < 0 else 7600.0 if 2.5 < x < 5.0 else 7000.0 for x in xs]
    total = sum((a + b) / 2.0 * (v - u) for a, b, u, v in zip(w, w[1:], xs, xs[1:], strict=False))
    moment = sum((a + b) / 2.0 * (v - u) * (u + v) / 2.0 for a, b, u, v in zip(w, w[1:], xs, xs[1:], strict=False))
    group = (moment - total * PIN) / (STATIONS[1] - PIN)
    supports = (
        SupportForce("ball", PIN, total - group),
        *(SupportForce(f"axle {k + 1}", x, group / 3.0) for k, x in enumerate(STATIONS)),
    )
    shear, bend, v, m = [], [], 0.0, 0.0
    for i, x in enumerate(xs):
        if i:
            dx = x - xs[i - 1]
            v -= (w[i] + w[i - 1]) / 2.0 * dx
            v += sum(s.force for s in supports if xs[i - 1] < s.station <= x)
            m += v * dx
        shear.append(v)
        bend.append(m)
    off = tuple(0.002 * (x / DECK) * (x / DECK - 1.0) for x in xs)
    return Beam("travel", "Whole frame", "travel", total / G, tuple(xs), tuple(w), tuple(shear), tuple(bend), supports,
                (), deflection=off)


def desk(units: str = "us", **changed: Slice) -> Desk:
    """The sample desk; `changed` replaces a slice by its lower-case name."""
    slices: dict[str, Slice] = {
        "cover": replace(COVER, units=units),
        "sheets": Sheets(SHEETS[OWNER]),
        "steel": STEEL,
        "envelope": ENVELOPE,
        "neck": NECK,
        "placement": placement(),
        "steel_loads": SteelLoads(beam()),
    }
    return Desk(tuple((slices | changed).values()))
