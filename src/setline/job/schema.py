"""The published form of a job: JSON Schema 2020-12, with what each field means.

Pydantic writes the shapes. What the fields mean stands as a text below each in the models; it is read here
from their source, when somebody asks, since no start of the program needs it.
"""

from __future__ import annotations

import ast
import inspect
import textwrap
from typing import Any

from setline.job.fields import Model
from setline.job.job import Job

__all__ = ["field_help", "job_schema"]

_DIALECT = "https://json-schema.org/draft/2020-12/schema"


def job_schema() -> dict[str, Any]:
    """Return the JSON Schema of a job file; TOML is the same document.

    What two places must agree on (an item of a run stands in the order) no schema can say; ``read_job`` does.
    """
    schema = Job.model_json_schema(by_alias=True)
    helps = {model.__name__: field_help(model) for model in _models(Job)}
    for name, part in (("Job", schema), *schema.get("$defs", {}).items()):
        for key, shape in part.get("properties", {}).items():
            shape.pop("title", None)
            if key in helps.get(name, {}):
                shape["description"] = helps[name][key]
        part.pop("title", None)
    return {"$schema": _DIALECT, "title": "Setline job, format 1", **schema}


def field_help(model: type[Model]) -> dict[str, str]:
    """Return what each field of a model means, by the key that a file uses."""
    source = textwrap.dedent(inspect.getsource(model))
    [definition] = ast.parse(source).body
    assert isinstance(definition, ast.ClassDef)
    keys = {name: field.alias or name for name, field in model.model_fields.items()}
    helps: dict[str, str] = {}
    for statement, after in zip(definition.body, definition.body[1:], strict=False):
        if isinstance(statement, ast.AnnAssign) and isinstance(statement.target, ast.Name):
            text = after.value if isinstance(after, ast.Expr) else None
            if isinstance(text, ast.Constant) and isinstance(text.value, str):
                words = " ".join(text.value.split()).replace("``", "`")
                helps[keys[statement.target.id]] = words
    return helps


def _models(model: type[Model]) -> set[type[Model]]:
    """Return a model and every model in it."""
    found: set[type[Model]] = set()
    waiting: list[Any] = [model]
    while waiting:
        each = waiting.pop()
        if isinstance(each, type) and issubclass(each, Model) and each not in found:
            found.add(each)
            waiting += [field.annotation for field in each.model_fields.values()]
        waiting += getattr(each, "__args__", ())
    return found
