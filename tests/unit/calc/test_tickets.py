"""Tickets against the list on the scratch design: who wins, what is corrected, what is not."""

from dataclasses import replace

import numpy as np
import pytest
from scratch import DATA, spec
from ticket_sample import three, weighing

from generator.calc.lines import lines_of
from generator.calc.run import calculate, work
from generator.calc.topics.weighings import gross_row, group_row
from generator.calc.trials import Trials
from generator.model.resolve import resolve

NOMINAL = Trials(count=0)
STEER, DRIVE = 2000.0, 1800.0


@pytest.fixture(scope="module")
def predicted():
    loads = work(resolve(spec(), DATA), DATA, NOMINAL).loads
    return {s: (float(x.mass.values[0]), float(x.hitch.values[0]), float(x.group.values[0])) for s, x in loads.items()}


def readings(hitch, group, **more):
    """What the scale reads for a trailer with these loads; the ball on the drive axle."""
    return three(STEER, DRIVE + hitch, group, (STEER, DRIVE)) | more


def results(*weighings, trials=NOMINAL):
    model = resolve(replace(spec(), tickets=weighings), DATA)
    return calculate(model, DATA, trials)


def status(found, id):
    return next(c.status for c in found.checks if c.id == id)


def value(found, id):
    return next(q.nominal for q in found.quantities if q.id == id)


def test_without_tickets_there_is_nothing():
    found = results()
    assert found.weighed is None
    assert not [c for c in found.checks if c.id.startswith("ticket.")]


def test_a_ticket_that_reads_what_the_list_says(predicted):
    mass, hitch, group = predicted["travel"]
    found = results(weighing(**readings(hitch, group)), trials=Trials(count=500))
    assert status(found, "ticket.one.agrees") == "pass"
    assert value(found, "ticket.one.gross") == pytest.approx(mass, rel=1e-9)
    assert value(found, "ticket.one.hitch") == pytest.approx(hitch, rel=1e-9)
    assert found.weighed.items == ()
    for row in found.weighed.tickets[0].rows:
        assert row.ratio == pytest.approx(1.0, rel=1e-6)
    travel = next(s for s in found.weighed.states if s.id == "travel")
    assert (travel.source, travel.mass, travel.hitch) == ("one", pytest.approx(mass), pytest.approx(hitch))


def test_a_heavier_trailer_is_kept_word_for_word_and_other_states_follow(predicted):
    mass, hitch, group = predicted["dry"]
    found = results(weighing(state="dry", **readings(hitch + 20.0, group + 130.0)))
    assert status(found, "ticket.one.agrees") == "pass"
    states = {s.id: s for s in found.weighed.states}
    assert states["dry"].mass == pytest.approx(mass + 150.0)
    assert states["travel"].source == ""
    assert predicted["travel"][0] + 100.0 < states["travel"].mass < predicted["travel"][0] + 200.0
    assert states["travel"].mass == pytest.approx(states["travel"].hitch + states["travel"].group)
    assert found.weighed.items[0].after > found.weighed.items[0].before
    assert all(i.after_error < i.before_error for i in found.weighed.items)


def test_a_conflict_corrects_nothing_and_says_where_to_look(predicted):
    _, hitch, group = predicted["travel"]
    found = results(weighing(**readings(hitch, group + 3000.0)))
    ticket = found.weighed.tickets[0]
    assert status(found, "ticket.one.agrees") == "fail"
    assert (ticket.used, ticket.wins) == (False, True)
    assert len(ticket.look) == 5
    assert [abs(r.deviations) for r in ticket.look] == sorted((abs(r.deviations) for r in ticket.look), reverse=True)
    assert found.weighed.items == ()
    assert {s.id: s for s in found.weighed.states}["shell"].mass == pytest.approx(predicted["shell"][0])


@pytest.mark.parametrize(
    ("more", "why"), [({"level": "no"}, "level"), ({"same_load": "no"}, "fuel"), ({"weighed": "axle by axle"}, "axles")]
)
def test_what_is_no_weighing_of_the_whole_corrects_nothing(predicted, more, why):
    _, hitch, group = predicted["travel"]
    found = results(weighing(**readings(hitch + 10, group + 50, **more)))
    ticket = found.weighed.tickets[0]
    assert not ticket.used
    assert "planning only" in ticket.remark
    assert why in ticket.remark
    if "weighed" not in more:
        assert status(found, "ticket.one.agrees") == "review"


def test_the_better_ticket_wins_then_the_later(predicted):
    _, hitch, group = predicted["travel"]
    one = readings(hitch, group)
    sheet = [
        weighing("early", date="2026-05-01", **one),
        weighing("late", date="2026-06-02", **one),
        weighing("added", date="2026-07-01", weighed="axle by axle", **one),
    ]
    for order in (sheet, sheet[::-1]):
        found = results(*order)
        assert [t.id for t in found.weighed.tickets if t.wins] == ["late"]


def test_axles_alone_are_held_against_the_list_when_the_tow_vehicle_was_not_weighed(predicted):
    _, hitch, group = predicted["travel"]
    made = readings(hitch, group + 40.0)
    del made["alone"]
    found = results(weighing(**made))
    ticket = found.weighed.tickets[0]
    assert (ticket.gross, ticket.hitch) == (None, None)
    assert ticket.used
    assert len(ticket.rows) == 1
    assert not [c for c in found.checks if c.id in ("ticket.one.hitch", "ticket.one.share")]


def test_sides_are_a_reading_of_their_own(predicted):
    _, hitch, group = predicted["travel"]
    loads = work(resolve(spec(), DATA), DATA, NOMINAL).loads["travel"]
    left, right = (sum(float(q.values[0]) for q in side) for side in (loads.left, loads.right))
    sides = {"left": f"{left:.6f} kg", "right": f"{right:.6f} kg"}
    row = results(weighing(**readings(hitch, group, sides=sides))).weighed.tickets[0].rows[2]
    assert row.read == pytest.approx(row.predicted, rel=1e-4)


def test_an_overloaded_axle_on_the_scale_fails(predicted):
    _, hitch, group = predicted["travel"]
    count = len(spec().trailer.running_gear.axles)
    axles = ["9000 kg", *["100 kg"] * (count - 1)]
    found = results(weighing(**readings(hitch, group, axles=axles)))
    assert status(found, "ticket.one.axle.1") == "fail"
    assert status(found, "ticket.one.group") == "pass"


def test_a_light_ball_on_the_scale_fails(predicted):
    mass, _, _ = predicted["travel"]
    found = results(weighing(**readings(0.02 * mass, 0.98 * mass)))
    assert status(found, "ticket.one.share") == "fail"


def test_an_unknown_reading_is_not_assessed(predicted):
    _, hitch, group = predicted["travel"]
    made = readings(hitch, group)
    made["hitched"]["drive"] = "unknown"
    found = results(weighing(**made))
    assert status(found, "ticket.one.agrees") == "not assessed"
    assert status(found, "ticket.one.hitch") == "not assessed"
    assert not found.weighed.tickets[0].used
    assert {s.id: s for s in found.weighed.states}["travel"].source == ""
    both = results(weighing(**made), weighing("two", date="2026-01-01", **readings(hitch, group)))
    assert [t.id for t in both.weighed.tickets if t.wins] == ["two"]


@pytest.mark.parametrize("state", ["bare", "shell", "dry", "travel", "travel_wet"])
def test_nothing_known_is_no_traceback(state):
    nothing = dict.fromkeys(("steer", "drive", "trailer"), "unknown")
    sides = {"left": "unknown", "right": "unknown"}
    alone = {"steer": "unknown", "drive": "unknown"}
    found = results(
        weighing(state=state, hitched=nothing, slack=nothing, alone=alone, sides=sides, graduation="unknown"),
        trials=Trials(count=50),
    )
    assert {c.status for c in found.checks if c.id.startswith("ticket.")} == {"not assessed"}


def test_a_trailer_that_lifts_the_tow_vehicle_is_no_traceback():
    found = results(weighing(**three(2000.0, 1500.0, 9000.0, (2000.0, 1800.0))), trials=Trials(count=50))
    assert value(found, "ticket.one.hitch") == pytest.approx(-300.0)
    assert status(found, "ticket.one.share") == "fail"


def test_prediction_of_the_rows_is_the_statics_of_the_loads(predicted):
    """The weights that add items up give the same loads as the sums of the states."""
    for state, (mass, hitch, _) in predicted.items():
        rows = results(weighing(state=state, **readings(hitch, 1000.0))).weighed.tickets[0].rows
        assert [r.predicted for r in rows] == pytest.approx([mass, hitch], rel=1e-9)


def test_drivers_make_one_and_agree_with_the_trials():
    found = results(trials=Trials(count=4000))
    for of in found.drivers:
        assert sum(g.share for g in of.groups) == pytest.approx(1.0)
        low, high = next((q.low, q.high) for q in found.quantities if q.id == of.id)
        assert of.deviation == pytest.approx((high - low) / 3.2897, rel=0.08)
    assert [d.id.rpartition(".")[2] for d in found.drivers if "axle" not in d.id] == ["hitch", "mass"]


def test_scale_card_stops_at_the_lesser_of_list_and_rating():
    card = results(trials=Trials(count=500)).scale_card
    assert [s.id for s in card.stages][:4] == ["bare", "shell", "dry", "travel"]
    for stage in card.stages:
        for row in stage.rows:
            assert row.stop_above <= row.high or row.stop_above == pytest.approx(row.high)
            assert row.low <= row.predicted <= row.high
    axles = next(m for m in card.moves if m.title == "Over the axles")
    assert axles.hitch == pytest.approx(0.0, abs=1e-9)
    assert all(m.hitch + m.group == pytest.approx(card.mass) for m in card.moves)


def test_a_weak_rating_is_the_stop():
    trailer = spec().trailer
    weak = trailer.coupling.vertical_rating
    coupling = trailer.coupling.model_copy(
        update={"vertical_rating": replace(weak, nominal=100.0, low=100.0, high=100.0)}
    )
    model = resolve(replace(spec(), trailer=trailer.model_copy(update={"coupling": coupling})), DATA)
    row = calculate(model, DATA, Trials(count=200)).scale_card.stages[3].rows[1]
    assert row.stop_above == 100.0
    assert "vertical rating" in row.above_is
    assert np.isfinite(row.stop_below)


def spreads(found, id):
    return next((q.nominal, (q.high - q.low) / 3.2897) for q in found.quantities if q.id == id)


def test_the_design_is_worked_with_the_list_as_weighed(predicted):
    """Mass and hitch load of the state are what was read, within twice the scale's own error (the list still has its
    say); before, the list knew neither to a hundred."""
    mass, hitch, group = predicted["travel"]
    trials = Trials(count=4000)
    plain, found = results(trials=trials), results(weighing(**readings(hitch + 20.0, group + 130.0)), trials=trials)
    kept = next(s for s in found.weighed.states if s.id == "travel")
    after, error = spreads(found, "state.travel.mass")
    assert after == pytest.approx(mass + 150.0, abs=2.0 * kept.mass_error)
    assert error < 0.2 * spreads(plain, "state.travel.mass")[1]
    assert error < 1.05 * kept.mass_error
    ball, ball_error = spreads(found, "state.travel.hitch")
    assert ball == pytest.approx(hitch + 20.0, abs=2.0 * kept.hitch_error)
    assert ball_error < 1.05 * kept.hitch_error
    assert spreads(found, "state.dry.mass")[0] > predicted["dry"][0] + 100.0


def test_items_go_from_old_to_new_and_add_up_to_the_state(predicted):
    _, hitch, group = predicted["travel"]
    found = results(weighing(**readings(hitch + 20.0, group + 130.0)))
    written = {i.id: i for i in resolve(spec(), DATA).items}
    travel = next(n for n, s in enumerate(resolve(spec(), DATA).states) if s.id == "travel")
    assert sum(i.mass * i.aboard[travel] for i in found.items) == pytest.approx(value(found, "state.travel.mass"))
    for row in found.weighed.items:
        now = next(i for i in found.items if i.id == row.id)
        assert (row.before, row.after) == pytest.approx((written[row.id].mass, now.mass))
        assert now.high - now.low < written[row.id].high - written[row.id].low


def test_the_correction_is_generalised_least_squares(predicted):
    """Second route: the items themselves as observations beside the readings, solved by ordinary least squares after
    whitening both with their Cholesky factors (numpy.linalg.lstsq)."""
    _, hitch, group = predicted["travel"]
    found = results(weighing(**readings(hitch + 20.0, group + 130.0)))
    model = resolve(spec(), DATA)
    loads = work(model, DATA, NOMINAL).loads["travel"]
    lines = lines_of(model.items, DATA)
    free = np.flatnonzero(lines.deviation > 0.0)
    S = lines.times(np.eye(len(model.items)))[np.ix_(free, free)]
    n = next(k for k, s in enumerate(model.states) if s.id == "travel")
    whole = gross_row(model.items, n)
    A = np.array([whole, whole - group_row(model.items, n, float(loads.x_h.values[0]), float(loads.x_a.values[0]))])
    y = np.array([hitch + group + 150.0, hitch + 20.0])
    scale, ball = np.array([r.error for r in found.weighed.tickets[0].rows])
    R = np.array([[scale**2, ball**2], [ball**2, ball**2]])
    prior, read = np.linalg.inv(np.linalg.cholesky(S)), np.linalg.inv(np.linalg.cholesky(R))
    fixed = A @ lines.mass - A[:, free] @ lines.mass[free]
    rows = np.vstack((prior, read @ A[:, free]))
    right = np.concatenate((prior @ lines.mass[free], read @ (y - fixed)))
    mass = np.linalg.lstsq(rows, right, rcond=None)[0]
    assert mass.min() > 0.0
    assert np.array([i.mass for i in found.items])[free] == pytest.approx(mass, rel=1e-7)


def test_a_ticket_of_another_opinion_changes_no_result(predicted):
    _, hitch, group = predicted["travel"]
    plain, found = results(), results(weighing(**readings(hitch, group + 3000.0)))
    assert status(found, "ticket.one.agrees") == "fail"
    told = {q.id: q.nominal for q in found.quantities}
    for q in plain.quantities:
        assert told[q.id] == pytest.approx(q.nominal, rel=1e-12, nan_ok=True)
    assert found.items == plain.items


def test_checks_rest_on_the_list_as_weighed(predicted):
    """The axle check of the packet sees the heavier trailer."""
    _, hitch, group = predicted["travel"]

    def demand(of):
        return next(c.outcome.demand.value for c in of.checks if c.id == "axle.1.rating")

    assert demand(results(weighing(**readings(hitch + 20.0, group + 130.0)))) > demand(results()) + 20.0
