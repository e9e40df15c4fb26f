"""Closes the schemas of a description: in them stands what the service of the same version gives, and nothing else."""


def parts_of(schema):
    return schema.get("allOf", [])


def close(document):
    """Changes `document`: an object without a word on other members has none."""
    schemas = document["components"]["schemas"]
    extended = {part["$ref"].rsplit("/")[-1] for schema in schemas.values() for part in parts_of(schema) if "$ref" in part}
    for name, schema in schemas.items():
        if any("properties" in part for part in parts_of(schema)):
            if name not in extended:
                schema["unevaluatedProperties"] = False
        elif name not in extended:
            close_objects(schema)


def close_objects(value):
    if isinstance(value, list):
        for item in value:
            close_objects(item)
    elif isinstance(value, dict):
        if isinstance(value.get("properties"), dict) and value.get("type") == "object":
            value.setdefault("additionalProperties", False)
        for item in value.values():
            close_objects(item)
