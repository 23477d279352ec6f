"""The trailer as measured: bounds, the later visit, and the heights that follow."""

from dataclasses import replace

import pytest
from scratch import DATA, spec
from ticket_sample import visit

from generator.calc.run import calculate, work
from generator.calc.trials import Trials
from generator.model.resolve import resolve


def results(*visits):
    return calculate(resolve(replace(spec(), asbuilt=visits), DATA), DATA, Trials(count=0))


def nominal(found, id):
    return next(q.nominal for q in found.quantities if q.id == id)


@pytest.fixture(scope="module")
def plain():
    return results()


def mm(metres):
    return f"{metres * 1000:.3f} mm"


def test_nothing_measured_is_nothing_said(plain):
    assert plain.built is None


def test_within_and_beyond(plain):
    under = spec().trailer.neck.underside.nominal
    found = results(
        visit("a", "2026-06-01", ("neck underside", None, mm(under + 0.006)), ("diagonals", None, "9 mm")),
    )
    checks = {c.id: c.status for c in found.checks if c.id.startswith("asbuilt.")}
    assert checks == {"asbuilt.a.neck-underside": "pass", "asbuilt.a.diagonals": "fail"}
    rows = {r.title: r for r in found.built.rows}
    assert rows["Neck underside"].low == pytest.approx(under - 0.00635, abs=5e-4)
    assert (rows["Neck underside"].within, rows["Diagonals"].within) == (True, False)


def test_a_reading_on_the_bound_keeps_it():
    found = results(visit("a", "2026-06-01", ("flatness", None, "3 mm")))
    assert [c.status for c in found.checks if c.id.startswith("asbuilt.")] == ["pass"]


def test_a_higher_deck_raises_everything_above_it(plain):
    deck = nominal(plain, "height.deck.unladen")
    found = results(visit("a", "2026-06-01", ("deck height, bare", None, mm(deck + 0.010))))
    moved = {r.id: r.built - r.designed for r in found.built.results}
    assert moved["height.deck.unladen"] == pytest.approx(0.010, abs=1e-6)
    assert moved["height.overall.laden"] == pytest.approx(0.010, abs=2e-4)
    assert found.built.remark == ""
    assert next(c.status for c in found.checks if c.id == "asbuilt.a.deck-height-bare") == "fail"


def test_what_was_measured_counts_and_what_was_drawn_stands_beside_it(plain):
    deck = nominal(plain, "height.deck.unladen")
    found = results(visit("a", "2026-06-01", ("deck height, bare", None, mm(deck + 0.010))))
    assert nominal(found, "height.deck.unladen") == pytest.approx(deck + 0.010, abs=1e-6)
    row = next(r for r in found.built.results if r.id == "height.deck.unladen")
    assert (row.designed, row.built) == pytest.approx((deck, deck + 0.010), abs=1e-6)


def test_loads_follow_the_axles_as_built(plain):
    """Statics by hand: the hitch load with the group 30 mm further aft, sprung moment P about the ball unchanged but
    for what moves with the axles; the allowance for what is not listed follows the list by a trifle."""
    loads = work(resolve(spec(), DATA), DATA, Trials(count=0)).loads["travel"]
    x_h, x_a, M_f, x_f, M_r, x_r = (
        float(q.values[0])
        for q in (loads.x_h, loads.x_a, loads.at.fixed_mass, loads.at.fixed_x, loads.at.moving_mass, loads.at.moving_x)
    )
    stations = resolve(spec(), DATA).axle_stations
    aft = [("spindle station", f"axle-{n}", mm(x + 0.030)) for n, x in enumerate(stations, 1)]
    found = results(visit("a", "2026-06-01", *aft))
    A = (M_f * (x_f - x_h) + M_r * (x_r + 0.030 - x_h)) / (x_a + 0.030 - x_h)
    assert nominal(found, "state.travel.hitch") == pytest.approx(M_f + M_r - A, abs=0.5)
    assert nominal(found, "state.travel.hitch") > nominal(plain, "state.travel.hitch") + 15.0
    row = next(r for r in found.built.results if r.id == "state.travel.hitch")
    assert (row.designed, row.built) == pytest.approx((nominal(plain, row.id), nominal(found, row.id)))


def test_every_result_is_that_of_the_spec_as_measured():
    """Ball, neck, tyre and width measured: the same as a spec that says so."""
    said = {"coupling.station": "-2.31 m", "neck.underside": "1.255 m", "running_gear.tyre.diameter": "780 mm"}
    found = results(visit("a", "2026-06-01", ("ball station", None, "-2.31 m"), ("neck underside", None, "1.255 m"),
                          ("tyre diameter", None, "780 mm")))
    same = calculate(resolve(spec(trailer=said), DATA), DATA, Trials(count=0))
    for one, other in zip(found.quantities, same.quantities, strict=True):
        assert (one.id, one.nominal) == (other.id, pytest.approx(other.nominal, rel=1e-9, nan_ok=True))


def test_track_and_seats_follow_too(plain):
    track = nominal(plain, "width.track")
    found = results(visit("a", "2026-06-01", ("track", None, mm(track + 0.012)), ("seats", None, "5 mm")))
    assert nominal(found, "width.track") == pytest.approx(track + 0.012, abs=1e-6)
    before, after = nominal(plain, "axle.1.tolerance_load"), nominal(found, "axle.1.tolerance_load")
    seats = spec().trailer.running_gear.suspension.seat_tolerance.nominal
    assert after / before == pytest.approx(0.005 / seats, rel=1e-3)


def test_of_two_visits_the_later_counts(plain):
    deck = nominal(plain, "height.deck.unladen")
    early = visit("b", "2026-06-01", ("deck height, bare", None, mm(deck + 0.020)))
    late = visit("a", "2026-07-01", ("deck height, bare", None, mm(deck + 0.003)))
    for visits in ((early, late), (late, early)):
        moved = {r.id: r.built - r.designed for r in results(*visits).built.results}
        assert moved["height.deck.unladen"] == pytest.approx(0.003, abs=1e-6)


def test_axles_set_aft_move_the_group(plain):
    arms = results(visit("a", "2026-06-01", ("spindle station", "axle-1", "7 m"))).built
    designed = next(r.nominal for r in arms.rows)
    found = results(visit("a", "2026-06-01", ("spindle station", "axle-1", mm(designed + 0.030)))).built
    moved = {r.id: r.built - r.designed for r in found.results}
    assert moved["axles.group"] == pytest.approx(0.030, abs=1e-6)


def test_an_unknown_measurement_is_not_assessed():
    found = results(visit("a", "2026-06-01", ("track", None, "unknown")))
    assert [c.status for c in found.checks if c.id.startswith("asbuilt.")] == ["not assessed"]
    assert found.built.rows[0].within is None


def test_a_trailer_that_cannot_be_is_told_so():
    found = results(visit("a", "2026-06-01", ("ball station", None, "20 m")))
    assert next(c.status for c in found.checks if c.id.startswith("asbuilt.")) == "fail"
    assert found.built.rows[0].within is False


def test_tyres_have_no_tolerance_but_count(plain):
    tyre = spec().trailer.running_gear.tyre.diameter.nominal
    found = results(visit("a", "2026-06-01", ("tyre diameter", None, mm(tyre - 0.010))))
    assert not [c for c in found.checks if c.id.startswith("asbuilt.")]
    moved = {r.id: r.built - r.designed for r in found.built.results}
    assert moved["height.deck.laden"] == pytest.approx(-0.005, abs=2e-4)
