"""A check of the cells: what is unsound is refused, be it by status or, where that is asked for, in words."""
import schemathesis
from schemathesis.specs.openapi.checks import negative_data_rejection


@schemathesis.check
def cell_refuses_unsound_data(ctx, response, case):
    if not case.operation.path.endswith(".txt"):
        return True
    text = response.content.decode("utf-8", "replace")
    if response.status_code == 200 and text.startswith("REFUSED: "):
        asked = (case.query or {}).get("refusals")
        assert asked == "text", f"refused in words without being asked to: refusals={asked!r}"
        return True
    return negative_data_rejection(ctx, response, case)
