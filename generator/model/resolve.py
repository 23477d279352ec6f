"""From the spec to the model: every item with mass and place, every cut piece, the load states, the axle stations."""

from generator.errors import SpecError
from generator.model.aboard import axle_items, axle_stations, listed_items, unlisted_items
from generator.model.buildup import envelope_items
from generator.model.frame import frame_items, marked
from generator.model.notebook import Notebook
from generator.model.states import STATES
from generator.model.types import Model
from generator.reference.load import Reference
from generator.spec.models.spec import Spec


def resolve(spec: Spec, data: Reference) -> Model:
    """The design as the calculation takes it; raises SpecError with every fault of geometry and naming."""
    book = Notebook(data, spec.project.units)
    members = marked(spec.trailer.frame, spec.trailer.tongue, book)
    stations = axle_stations(spec.trailer.running_gear)
    items = [
        *frame_items(spec.trailer.frame, members, book),
        *axle_items(spec.trailer, stations, book),
        *envelope_items(spec.house, book),
        *listed_items(spec.weights, stations, book),
    ]
    items += unlisted_items(spec.project, spec.house, items, book)
    if book.faults:
        raise SpecError(book.faults)
    pieces = tuple(p for m in members for p in m.pieces)
    return Model(spec, STATES, tuple(items), pieces, stations, frozenset(book.assumed))
