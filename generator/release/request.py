"""The request to the fabricator: clauses filled in, rows of the reply form and of the acceptance sheet."""

from dataclasses import replace

from generator.reference.content import clauses, holds
from generator.release.acceptance import acceptance_rows
from generator.release.features import features
from generator.release.reply import reply_rows
from generator.release.slices import Request
from generator.release.wording import Asked, fill, records, words


def request(a: Asked) -> Request:
    """The whole request of one design."""
    spec, say = a.model.spec, a.cover.say
    terms = spec.project.request
    texts = tuple(replace(c, rows=tuple(replace(r, what=say(r.what), text=say(r.text)) for r in c.rows))
                  for c in clauses(a.show.system))
    points = tuple(replace(h, text=say(h.text)) for h in holds())
    return Request(
        number=terms.number, due=terms.quotes_due, questions_until=terms.questions_until,
        questions_to=spec.project.roles.questions_to, valid_days=terms.quote_valid_days,
        clauses=fill(texts, words(a), records(a, points), features(spec)),
        reply=tuple(replace(r, item=say(r.item)) for r in reply_rows(a)),
        acceptance=tuple(replace(r, what=say(r.what), how=say(r.how)) for r in acceptance_rows(a)),
    )
