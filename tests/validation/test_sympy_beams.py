"""Exact beams by sympy's `physics.continuum_mechanics.beam` (1.14): closed forms against ours to 1e-12 relative.

Trap of that library: loads are upward positive and its sagging moment comes out negative.
"""

import numpy as np
import pytest

from generator.calc.beam import Girder, Support, at, diagram, loads, solve

sympy = pytest.importorskip("sympy")
mechanics = pytest.importorskip("sympy.physics.continuum_mechanics.beam")

EI = sympy.Rational(7, 2)


def exact(length, supports, applied):
    """A sympy beam on simple supports with loads (value, start, order[, end]) already downward negative."""
    beam = mechanics.Beam(length, EI, 1)
    forces = [sympy.Symbol(f"R{i}") for i in range(len(supports))]
    for r, x in zip(forces, supports, strict=True):
        beam.apply_load(r, x, -1)
    for row in applied:
        beam.apply_load(row[0], row[1], row[2], end=row[3] if len(row) == 4 else None)
    beam.bc_deflection = [(x, 0) for x in supports]
    beam.solve_for_reaction_loads(*forces)
    return beam, [float(beam.reaction_loads[r]) for r in forces]


def same(ours, beam, stations):
    deflection, moment = beam.deflection(), beam.bending_moment()
    for x in stations:
        at_x = np.array([float(x)])
        assert float(deflection.subs(beam.variable, x)) == pytest.approx(ours.deflection(at_x)[0], rel=1e-11, abs=1e-12)
        assert -float(moment.subs(beam.variable, x)) == pytest.approx(ours.moment(at_x)[0], rel=1e-11, abs=1e-12)
        whole, moved = diagram(ours), float(deflection.subs(beam.variable, x))
        assert moved == pytest.approx(whole.deflection(at_x)[0], rel=1e-11, abs=1e-12)
        assert -float(moment.subs(beam.variable, x)) == pytest.approx(whole.moment_ahead(at_x)[0], rel=1e-11, abs=1e-12)


def ours(length, supports, points=(), lines=()):
    girder = Girder(0.0, float(length), ((0.0, float(EI)),))
    return solve(girder, [at(str(x), float(x)) for x in supports], [loads(points, lines)])[0]


def test_simple_beam_with_uniform_load():
    beam, reactions = exact(6, [0, 6], [(-2, 0, 0)])
    b = ours(6, [0, 6], lines=[(0.0, 6.0, 2.0, 2.0)])
    assert b.reactions == pytest.approx(reactions, rel=1e-12)
    same(b, beam, [1, 2, sympy.Rational(7, 2), 5])


def test_overhang_with_point_and_partial_load():
    beam, reactions = exact(9, [1, 6], [(-3, 4, -1), (-2, 5, 0, 9), (-1, 0, -1)])
    b = ours(9, [1, 6], points=[(4.0, 3.0), (0.0, 1.0)], lines=[(5.0, 9.0, 2.0, 2.0)])
    assert b.reactions == pytest.approx(reactions, rel=1e-12)
    same(b, beam, [sympy.Rational(1, 2), 3, sympy.Rational(11, 2), 7, sympy.Rational(17, 2)])


def test_two_spans_with_a_ramp():
    beam, reactions = exact(10, [0, 4, 10], [(-sympy.Rational(1, 3), 0, 1)])
    b = ours(10, [0, 4, 10], lines=[(0.0, 10.0, 0.0, 10.0 / 3.0)])
    assert b.reactions == pytest.approx(reactions, rel=1e-11)
    same(b, beam, [1, 3, 5, 8])


def test_cantilever_with_both_rows_at_the_wall():
    beam = mechanics.Beam(3, EI, 1)
    r, m = sympy.symbols("R M")
    beam.apply_load(r, 0, -1)
    beam.apply_load(m, 0, -2)
    beam.apply_load(-5, 3, -1)
    beam.bc_deflection, beam.bc_slope = [(0, 0)], [(0, 0)]
    beam.solve_for_reaction_loads(r, m)
    wall = [at("wall", 0.0), Support("turning", ((0.0, 0.0, 1.0),))]
    b = solve(Girder(0.0, 3.0, ((0.0, float(EI)),)), wall, [loads(points=[(3.0, 5.0)])])[0]
    assert b.reactions[0] == pytest.approx(float(beam.reaction_loads[r]), rel=1e-12)
    assert abs(b.reactions[1]) == pytest.approx(abs(float(beam.reaction_loads[m])), rel=1e-12)
    tip = float(beam.deflection().subs(beam.variable, 3))
    assert b.deflection(np.array([3.0]))[0] == pytest.approx(tip, rel=1e-12)
