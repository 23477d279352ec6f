"""AISC shapes database v16.0 against sections put together from plates: the same inertia within 1 %.

The printed area less the plates is the fillets, whose middle lies close under the flange; the corners of a tube are
rings of outer radius two walls. This finds a wrong digit in a row without reading another table.
"""

from math import pi

import pytest

from generator.reference.load import reference

SECTIONS = reference().sections


def of(shape):
    return sorted(n for n, s in SECTIONS.items() if s.shape == shape)


@pytest.mark.parametrize("name", of("I"))
def test_i_shape_from_plates(name):
    s = SECTIONS[name]
    clear = s.depth - 2 * s.flange
    plates = 2 * s.width * s.flange + clear * s.web
    arm = (s.depth - s.flange) / 2
    inertia = 2 * (s.width * s.flange**3 / 12 + s.width * s.flange * arm**2) + s.web * clear**3 / 12
    # Fillets of the printed area; in small shapes they reach half a flange further in.
    fillets = max(s.area - plates, 0.0)
    inertia += fillets * (clear / 2 - s.flange / 2) ** 2
    assert inertia == pytest.approx(s.inertia, rel=0.012 if name.startswith(("S", "M")) else 0.01)


@pytest.mark.parametrize("name", of("HSS"))
def test_tube_from_plates(name):
    s = SECTIONS[name]
    t, r = s.web, 2 * s.web
    flat_h, flat_b = s.depth - 2 * r, s.width - 2 * r
    ring = pi / 4 * (r**2 - (r - t) ** 2)
    middle = 4 / (3 * pi) * (r**3 - (r - t) ** 3) / (r**2 - (r - t) ** 2)
    own = pi / 16 * (r**4 - (r - t) ** 4) - ring * middle**2
    inertia = 2 * t * flat_h**3 / 12 + 2 * (flat_b * t**3 / 12 + flat_b * t * ((s.depth - t) / 2) ** 2)
    inertia += 4 * (own + ring * (flat_h / 2 + middle) ** 2)
    assert 2 * t * (flat_h + flat_b) + 4 * ring == pytest.approx(s.area, rel=0.01)
    assert inertia == pytest.approx(s.inertia, rel=0.01)
