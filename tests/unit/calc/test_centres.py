"""Where the centre of mass may stand: against the share the states themselves report, on a straight line."""

from pathlib import Path

import pytest

from generator.design import design

SPECS = Path(__file__).resolve().parents[3] / "specs"


@pytest.mark.parametrize("name", ["heron", "wren", "dipper"])
def test_ends_are_where_the_share_reaches_its_limits(name: str) -> None:
    """Moments about the axles: the share is (x_a - x)/(x_a - x_h), so a step of the centre moves it evenly."""
    it = design(SPECS / name)
    told = {q.id: q.nominal for q in it.results.quantities}
    row = next(s for s in it.results.states if s.id == "travel")
    x_h, sweep = it.model.spec.trailer.coupling.station.nominal, it.results.sweep
    assert row.hitch is not None
    assert row.group is not None
    x_a = (row.mass * row.x - row.hitch * x_h) / row.group
    for id, share in (("centre.foremost", sweep.share_high), ("centre.rearmost", sweep.share_low)):
        assert (x_a - told[id]) / (x_a - x_h) == pytest.approx(share, abs=2e-4)
    assert told["centre.foremost"] < told["centre.rearmost"]
