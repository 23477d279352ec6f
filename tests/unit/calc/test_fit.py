"""Does the steel go together: hand-made pieces that touch, overlap, are coped, run through, hang loose."""

from pathlib import Path

import numpy as np
import pytest
import scratch
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.calc.record import Missing
from generator.calc.topics.fit import fit
from generator.calc.trials import Trials
from generator.design import design
from generator.model.joints import joints
from generator.model.resolve import resolve
from generator.model.solids import backs, plates, solids
from generator.model.types import Piece

HERON = Path(__file__).resolve().parents[3] / "specs" / "heron"
WEB = 3.1
"""Half the web of W8x15, 0.245 in (AISC Manual, table 1-1), mm; its middle stands at 800 mm."""


def rail(mark="r1", section="W8x15", **more):
    """A pair of rails from the neck's front to the deck's rear, middle 800 mm off the centre line."""
    return {
        "mark": mark,
        "title": "Rail",
        "section": section,
        "grade": "ASTM A992",
        "run": "lengthwise",
        "start": "-2700 mm",
        "end": "9 m",
        "y": "800 mm",
        "sides": "both",
        "top": "-18 mm",
    } | more


def across(mark="c1", section="C4x5.4", half=800 - WEB - 0.5, **more):
    """A crosswise piece, as long to the left as to the right (mm)."""
    return {
        "mark": mark,
        "title": "Crossmember",
        "section": section,
        "grade": "ASTM A36",
        "run": "crosswise",
        "start": f"{-half} mm",
        "end": f"{half} mm",
        "stations": ["3 m"],
        "top": "-18 mm",
    } | more


TIE = across("t1", stations=["8 m"])
TUBE_TIE = across("t1", "HSS4x4x1/4", half=749.2, stations=["8 m"])
"""What holds a pair of rails together: with a web, or HSS6x4 whose inner faces stand at 749.2 mm."""


def post(mark="u1", section="HSS4x4x1/4", start="-18 mm", end="982 mm", **more):
    """A pair of posts on the rails."""
    return {
        "mark": mark,
        "title": "Post",
        "section": section,
        "grade": "ASTM A500 C",
        "run": "upright",
        "start": start,
        "end": end,
        "y": "800 mm",
        "sides": "both",
        "stations": ["1 m"],
    } | more


def found(*members, unknowns=(), **trailer):
    """The topic on a frame of these members alone."""
    changes = {"frame.members": list(members)} | trailer
    return fit(resolve(scratch.spec(trailer=changes, unknowns=unknowns), scratch.DATA), Trials(count=0), scratch.DATA)


def outcome(of, id):
    return next(c for c in of.findings.checks if c.id == f"frame.{id}").outcome


def counted(of, id):
    return outcome(of, id).demand.value


def steps(of, id):
    return {s.what: s for s in outcome(of, id).steps}


def sizes(step):
    return {v.symbol: round(v.value * 1000, 1) for v in step.inputs}


@pytest.mark.parametrize("section", [s for s in scratch.DATA.sections.values() if s.shape in ("I", "C", "L")])
def test_the_plates_of_a_section_make_up_its_area(section):
    """Areas of the AISC Shapes Database: fillets, at most a twentieth of it, are what the plates leave out."""
    piece = Piece("a", "", section.name, "", "lengthwise", 0, 1, 0, section.width, 0, section.depth, 1)
    area = sum((y1 - y0) * (z1 - z0) for _, (_, (y0, y1), (z0, z1)) in plates(piece, section, 1))
    assert 0.95 * section.area < area < 1.005 * section.area


def test_ends_that_touch_fit_and_hold():
    """HSS6x4 is 4 in wide: its inner face stands at 749.2 mm."""
    of = found(rail(section="HSS6x4x1/4"), across(section="HSS4x4x1/4", half=749.2))
    assert counted(of, "clash") == 0
    assert counted(of, "bearing") == 0
    assert of.copes == ()


def test_an_overlap_is_named_with_its_size_and_place():
    of = found(rail(section="HSS6x4x1/4"), across(section="HSS4x4x1/4", half=760))
    assert counted(of, "clash") == 2
    step = steps(of, "clash")["Clash: r1 and c1"]
    assert sizes(step) == {"x_1": 3000.0, "a": 101.6, "b": 10.8, "h": 101.6}
    assert "left and right" in step.text
    assert next(c for c in of.findings.checks if c.id == "frame.clash").status == "fail"


@pytest.mark.parametrize(("half", "clashes", "loose"), [(751.0, 0, 0), (751.4, 2, 0), (747.4, 0, 0), (747.0, 0, 1)])
def test_two_millimetres_are_the_shops_own(half, clashes, loose):
    of = found(rail(section="HSS6x4x1/4"), TUBE_TIE, across(section="HSS4x4x1/4", half=half))
    assert (counted(of, "clash"), counted(of, "bearing")) == (clashes, loose)


def test_an_end_that_stops_at_the_web_is_coped_for_the_flange():
    """W8x15: flange 4.015 in wide and 0.315 in thick, its inner tip at 748.95 mm (the table rounds the width)."""
    of = found(rail(), across())
    assert (counted(of, "clash"), counted(of, "bearing")) == (0, 0)
    (cope,) = of.copes
    assert (cope.mark, cope.end, cope.into, cope.flange, cope.count) == ("c1", "each end", "r1", "top", 2)
    assert cope.depth == pytest.approx(0.315 * 0.0254, abs=1e-4)
    assert cope.length == pytest.approx((796.4 - 748.95) / 1000, abs=2e-4)


def test_a_deep_piece_is_coped_for_both_flanges():
    of = found(rail(), across(section="W8x15"))
    assert counted(of, "clash") == 0
    assert {c.flange for c in of.copes} == {"top", "bottom"}


def test_a_piece_that_runs_through_the_web_clashes():
    of = found(rail(), across(half=1000))
    assert counted(of, "clash") == 2
    assert of.copes == ()


def test_a_coped_end_short_of_the_web_is_held_by_nothing():
    of = found(rail(), TIE, across(half=770))
    assert counted(of, "clash") == 0
    assert counted(of, "bearing") == 2
    assert "each end" in steps(of, "bearing")["Loose end: c1, each end"].text


def test_a_closed_section_is_not_coped_into():
    of = found(rail(section="HSS6x4x1/4"), across(half=790))
    assert counted(of, "clash") == 2


def test_a_post_that_carries_nothing_is_found():
    assert counted(found(rail(), TIE, post(), rail("n1", "HSS4x4x1/4", top="1083.6 mm")), "bearing") == 0
    of = found(rail(), TIE, post())
    assert counted(of, "bearing") == 2
    assert sizes(steps(of, "bearing")["Loose end: u1, top"]) == {"x_1": 1000.0, "z": 982.0}


@pytest.mark.parametrize(("y", "loose"), [(850.0, 0), (852.0, 2)])
def test_a_post_must_bear_on_half_its_breadth(y, loose):
    """The flange ends at 851.05 mm."""
    of = found(rail(), TIE, post(y=f"{y} mm"), rail("n1", "HSS4x4x1/4", top="1083.6 mm", y=f"{y} mm"))
    assert counted(of, "bearing") == loose


def test_ends_may_be_free_at_the_outline_of_the_deck_alone():
    """The deck is 2500 mm wide; the flange tip stands at 851.05 mm, the outer face of the web at 803.1 mm."""
    outrigger = across("o1", start="803.6 mm", end="1250 mm", sides="both")
    assert counted(found(rail(), TIE, outrigger), "bearing") == 0
    of = found(rail(), TIE, outrigger | {"end": "1200 mm"})
    assert counted(of, "bearing") == 2
    assert "Loose end: o1, outer end" in steps(of, "bearing")
    assert counted(found(rail(start="-2600 mm"), TIE), "bearing") == 2


def test_a_tube_round_the_coupler_or_a_jack_leg_is_open():
    """The ball stands at -2.3 m: the tube hangs between two crossmembers and ends below them in the air."""
    beams = across(stations=["-2401.6 mm", "-2198.4 mm"], section="HSS4x4x1/4", half=749.2)
    tube = post("k1", start="-600 mm", end="-18 mm", stations=["-2300 mm"], y="0 mm", sides="centre")
    closed = rail(section="HSS6x4x1/4")
    assert counted(found(closed, beams, tube), "bearing") == 0
    elsewhere = {"coupling.station": "-2000 mm"}
    assert counted(found(closed, beams, tube, **elsewhere), "bearing") == 1


def test_a_jack_leg_needs_a_way_through():
    jack = {"id": "nose", "title": "Jack", "station": "3 m", "y": "500 mm", "legs": "2", "drive": "shared shaft"}
    jack |= {"lift_rating": "3000 kg", "static_rating": "4500 kg", "stroke": "450 mm", "foot_clearance": "250 mm"}
    screw = {"lead": "5 mm", "pitch_diameter": "26 mm", "collar_diameter": "36 mm", "thread_friction": "0.15"}
    screw |= {"collar_friction": "0.1", "gear": "4", "gear_efficiency": "0.9", "crank": "250 mm"}
    jack |= {"block": "90 mm", "screw": screw}
    of = found(rail(), across(), jacks=[jack])
    assert counted(of, "clash") == 2
    assert sizes(steps(of, "clash")["Clash: leg of jack nose and c1"]) == {"x_1": 3000.0, "y": 500.0}
    assert counted(found(rail(), across(), jacks=[jack | {"station": "3200 mm"}]), "clash") == 0


def test_loose_pieces_and_islands_are_counted():
    of = found(rail(), across(), across("c9", half=300, stations=["5 m"], top="-500 mm"))
    assert counted(of, "bearing") == 1
    assert "Loose piece: c9" in steps(of, "bearing")
    island = [rail("i1", "HSS4x4x1/4", top="-900 mm"), across("i2", "HSS4x4x1/4", half=749.2, top="-900 mm")]
    assert "Apart from the rest: i1, i2" in steps(found(rail(), across(), *island), "bearing")


def test_a_flat_bar_need_only_touch():
    lug = post("p1", "FB4x3/8", start="-324 mm", end="-224 mm")
    assert counted(found(rail(), across(), lug), "bearing") == 0


def toes(*members):
    return {t.mark: t.toes for t in found(*members).turned}


def test_channels_turn_their_backs_to_the_ends_that_stop_at_them():
    """C8x11.5 is 2.26 in (57.4 mm) wide: rails that end at its front face, or 2 mm short of its web's back."""
    butted = across("x2", "C8x11.5", half=1250, stations=["8971.3 mm"])
    assert toes(rail(end="8942.6 mm"), butted)["x2"] == "aft"
    assert toes(rail(end="8992 mm"), butted)["x2"] == "forward"
    edge = rail("e1", "C4x5.4", y="1229.9 mm")
    assert toes(rail(), edge)["e1"] == "inward"
    assert toes(rail(), edge, across("o1", start="803.6 mm", end="1209.8 mm", sides="both"))["e1"] == "outward"


def test_one_mark_may_face_both_ways():
    """Edge rails end at the front face of one channel and at the rear face of the other, C6x8.2 1.92 in wide."""
    ends = across("b1", "C6x8.2", start="803.6 mm", end="1250 mm", sides="both", stations=["4 m", "6 m"])
    fore, aft = rail("e1", "C4x5.4", y="1200 mm"), rail("e2", "C4x5.4", y="1200 mm")
    of = found(rail(), ends, fore | {"end": "3975.6 mm"}, aft | {"start": "6024.4 mm"})
    assert {(t.toes, t.stations) for t in of.turned if t.mark == "b1"} == {("aft", (4.0,)), ("forward", (6.0,))}


def test_an_unknown_station_is_not_assessed():
    of = found(rail(), across(stations=["unknown"]))
    assert isinstance(outcome(of, "clash"), Missing)
    assert isinstance(outcome(of, "bearing"), Missing)


ANGLE = 25.0
SPREAD = np.tan(np.radians(ANGLE))
BREADTH = 101.6 / np.cos(np.radians(ANGLE))
"""A 4 in tube at 25 degrees takes this much across the trailer, mm (HSS6x4, AISC Manual, table 1-11)."""


def on_a_tongue(*members, leg="HSS6x4x1/4", **more):
    """Two legs from 700 mm ahead of datum A to 600 mm behind it, under the deck, with these members above."""
    leg = rail("t1", leg, start="-700 mm", end="600 mm", y="350 mm", top="-119.6 mm") | more
    tongue = {"underside": "-272 mm", "angle": f"{ANGLE} deg", "members": [leg]}
    frame = {"frame.members": [rail(section="HSS4x4x1/4", start="0 m"), *members]}
    ball = scratch.BALL["coupling"] | {"station": "-800 mm"}
    changes = scratch.BALL | {"coupling": ball, "tongue": tongue} | frame
    return fit(resolve(scratch.spec(trailer=changes), scratch.DATA), Trials(count=0), scratch.DATA)


HOLDS = (across("x1", "HSS4x4x1/4", half=749.2, stations=["50.8 mm"]),
         across("x2", "HSS4x4x1/4", half=749.2, stations=["560 mm"]))


def test_legs_at_an_angle_are_held_by_what_lies_on_them():
    of = on_a_tongue(*HOLDS)
    assert (counted(of, "clash"), counted(of, "bearing")) == (0, 0)
    of = on_a_tongue(HOLDS[0])
    assert set(steps(of, "bearing")) >= {"Loose end: t1, rear end"}


def test_a_piece_in_the_way_of_a_leg_clashes_where_trigonometry_says():
    """At station -400 mm the middle of a leg stands 350 + tan 25 deg (-400 + 50) mm off the centre line."""
    at = 350.0 - 350.0 * SPREAD
    near = at - BREADTH / 2 - 50.8 * SPREAD
    tie = across("t2", "HSS4x4x1/4", half=near - 1.0, stations=["-400 mm"], top="-119.6 mm")
    assert counted(on_a_tongue(*HOLDS, tie), "clash") == 0
    through = across("t2", "HSS4x4x1/4", half=at + 200.0, stations=["-400 mm"], top="-119.6 mm")
    step = steps(on_a_tongue(*HOLDS, through), "clash")["Clash: t2 and t1"]
    assert step.result.value == 2
    size = sizes(step)
    assert size["a"] == pytest.approx(101.6, abs=0.1)
    assert size["b"] == pytest.approx(BREADTH + 101.6 * SPREAD, abs=4.0)
    assert size["h"] == pytest.approx(101.6, abs=0.1)


def test_beside_a_leg_inside_the_box_around_it_there_is_room():
    """At station -600 mm the legs stand 350 - tan 25 deg x 550 = 93.5 mm off the centre line: at 350 mm is room."""
    aside = post("u9", "HSS2x2x1/8", start="-600 mm", end="200 mm", stations=["-600 mm"], y="350 mm")
    assert counted(on_a_tongue(*HOLDS, aside), "clash") == 0
    inside = post("u9", "HSS2x2x1/8", start="-600 mm", end="200 mm", stations=["-600 mm"], y="95 mm")
    assert counted(on_a_tongue(*HOLDS, inside), "clash") == 2


def test_legs_meet_mitred_on_the_centre_line():
    """Middle 250 mm off at half length: 250 - tan 25 deg x 650 mm is on the other side of the centre line."""
    assert counted(on_a_tongue(*HOLDS, y="250 mm"), "clash") == 0


def test_many_steep_legs_are_compared_in_good_time():
    leg = rail("t", "C6x8.2", start="-1300 mm", end="0 m", y="350 mm")
    legs = [leg | {"mark": f"t{n}", "top": f"{-200 * n} mm"} for n in range(1, 30)]
    tongue = {"underside": "-6 m", "angle": "89.9 deg", "members": legs}
    model = resolve(scratch.spec(trailer=scratch.BALL | {"tongue": tongue}), scratch.DATA)
    pieces = [p for p in model.pieces if p.skew > 1.0]
    of = solids(pieces, scratch.DATA.sections, backs(pieces, scratch.DATA.sections, 0.002), 0.002)
    assert len(of.owner) <= 3 * (2000 + len(pieces))


def test_an_unknown_angle_is_not_assessed():
    tongue = scratch.BALL["tongue"] | {"angle": "unknown"}
    model = resolve(scratch.spec(trailer=scratch.BALL | {"tongue": tongue}), scratch.DATA)
    assert isinstance(outcome(fit(model, Trials(count=0), scratch.DATA), "clash"), Missing)


def cube(n, x, y, z):
    return Piece(str(n), "", "HSS2x2x1/8", "", "lengthwise", x, x + 0.1, y, y + 0.1, z, z + 0.1, 1.0)


STEP = st.integers(0, 40).map(lambda n: n * 0.01)


@given(st.lists(st.tuples(STEP, STEP, STEP), min_size=2, max_size=6))
@settings(max_examples=60, deadline=None)
def test_equal_cubes_clash_when_their_corners_lie_close(corners):
    """Two equal cubes share more than 2 mm each way if their corners differ by less than 98 mm each way."""
    pieces = [cube(n, *c) for n, c in enumerate(corners)]
    of = joints(pieces, scratch.DATA.sections, 0.002)
    near = np.abs(np.array(corners)[:, None] - np.array(corners)[None]).max(axis=2) < 0.098
    assert {(o.first, o.second) for o in of.overlaps} == {
        (i, j) for i, j in zip(*np.nonzero(near), strict=True) if i < j
    }


def test_heron_goes_together():
    checks = {c.id: c for c in design(HERON).results.checks}
    assert checks["frame.clash"].status == "pass"
    assert checks["frame.bearing"].status == "pass"
