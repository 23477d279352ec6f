"""The request to the fabricator: clauses filled in, rows of the reply form and of the acceptance sheet."""

from generator.reference.content import clauses, holds
from generator.release.acceptance import acceptance_rows
from generator.release.features import features
from generator.release.reply import reply_rows
from generator.release.slices import Request
from generator.release.wording import Asked, fill, records, words


def request(a: Asked) -> Request:
    """The whole request of one design."""
    spec = a.model.spec
    terms = spec.project.request
    return Request(
        number=terms.number, due=terms.quotes_due, questions_until=terms.questions_until,
        questions_to=spec.project.roles.questions_to, valid_days=terms.quote_valid_days,
        clauses=fill(clauses(), words(a), records(a, holds()), features(spec)),
        reply=reply_rows(a), acceptance=acceptance_rows(a),
    )
