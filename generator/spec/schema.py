"""JSON Schema of a spec folder, from the same models that read it."""

from typing import Any

from pydantic.json_schema import models_json_schema

from generator.spec.read import FILES, RECORDS
from generator.spec.source import COMPULSORY

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def schema() -> dict[str, Any]:
    """A JSON Schema of an object that holds every file of a spec folder under its name (JSON Schema 2020-12)."""
    models = (*FILES.values(), *RECORDS.values())
    places, whole = models_json_schema([(model, "validation") for model in models])
    files = {file: places[(model, "validation")] for file, model in FILES.items()}
    return {
        "$schema": DIALECT,
        "title": "Spec folder",
        "description": "One property for each file of the folder; all scalars are text.",
        "type": "object",
        "properties": files,
        "patternProperties": {
            rf"^{folder}/[a-z][a-z0-9-]{{0,39}}\.yaml$": places[(model, "validation")]
            for folder, model in RECORDS.items()
        },
        "required": list(COMPULSORY),
        "additionalProperties": False,
        "$defs": whole["$defs"],
    }
