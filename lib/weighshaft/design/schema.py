"""The JSON Schemas of design and workshop files, published with the package.

`python -m weighshaft.design.schema` writes them anew after a chapter's decisions changed.
"""

from __future__ import annotations

import json
from pathlib import Path

from .document import json_schema
from .workshop import json_schema as workshop_schema

PUBLISHED = Path(__file__).with_name("weighshaft-design.schema.json")
PUBLISHED_WORKSHOP = Path(__file__).with_name("weighshaft-workshop.schema.json")


def schema_text() -> str:
    """Return the schema of design files as it is to be published."""
    return json.dumps(json_schema(), ensure_ascii=False, indent=2) + "\n"


def workshop_schema_text() -> str:
    """Return the schema of workshop files as it is to be published."""
    return json.dumps(workshop_schema(), ensure_ascii=False, indent=2) + "\n"


def main() -> None:
    """Write the published schemas anew."""
    PUBLISHED.write_text(schema_text(), encoding="utf-8")
    PUBLISHED_WORKSHOP.write_text(workshop_schema_text(), encoding="utf-8")


if __name__ == "__main__":
    main()
