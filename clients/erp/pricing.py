"""From answers to prices: minutes at feed, what comes on top, and the machine's rate."""

from decimal import ROUND_HALF_UP, Decimal

from operations import Wrong

UNITS = "metric"
# Parts the sentences of a cell.
BETWEEN = " | "
MINUTES = {"s": Decimal(1) / 60, "min": Decimal(1), "h": Decimal(60)}
COLUMNS = [
    "order",
    "line",
    "part",
    "operation",
    "pieces",
    "per_piece",
    "machine",
    "material",
    "spindle_speed [rpm]",
    "cutting_speed [m/min]",
    "feed_rate [mm/min]",
    "minutes_per_cut [min]",
    "minutes_cutting [min]",
    "minutes_in_all [min]",
    "price",
    "currency",
    "load [percent]",
    "limited_by",
    "notes",
    "cautions",
    "service_version",
    "data_version",
    "shop_version",
    "key",
]


def item(asked, line):
    """A question as an item of a batch."""
    return {**asked.question(line.cells), "units": UNITS, "working": False}


def as_text(quantity):
    """A quantity of an answer as it can be asked with: all its digits and its unit."""
    return f"{Decimal(quantity['value']):f} {quantity['unit']}" if isinstance(quantity, dict) else quantity


def speed_of(answer):
    """What the question about time needs of the answer about speed."""
    result = answer["result"]
    degrees = result.get("engagement_angle", {"value": Decimal(0), "unit": "deg"})
    if degrees["unit"] != "deg":
        raise ValueError(f"the engagement is in {degrees['unit']}, not in deg")
    return {
        "feed_rate": as_text(result["feed_rate"]),
        "engagement_degrees": degrees["value"],
        "diameter": as_text(answer["inputs"].get("diameter", "")),
        "way": way(result),
    }


def way(result):
    """How far the tool goes, where the answer has the time of the cut."""
    if "cutting_time" not in result:
        return ""
    taken = result["cutting_time"]
    return f"{result['feed_rate']['value'] * taken['value'] * MINUTES[taken['unit']]:.9f} mm"


def impossible(answer):
    """A cut that the spindle cannot drive has no price, nor has one without a feed."""
    result = answer["result"]
    if "feed_rate" not in result:
        lacks = [note["says"] for note in answer["notes"] if note["code"] == "left_out"]
        says = " ".join(["The service gives no feed for this.", *lacks])
        return (Wrong("operation", "no_feed", says, "the tool maker's feed in feed_per_rev or feed_per_tooth"),)
    load = result.get("load", {"value": 0})["value"]
    if load <= 100 and "power" not in result.get("limited_by", ()):
        return ()
    taken = f"{load:.0f} percent" if "load" in result else "more than all"
    says = f"The cut takes {taken} of the power that the spindle has: it would stall."
    return (Wrong("machine", "too_much_power", says, "a smaller depth in more passes"),)


def refused(problem, asked):
    """A problem of the service, by column of the order list."""
    found = []
    for error in problem.get("errors", []):
        field = error["field"].removeprefix("/inputs").strip("/").split("/")[0]
        found.append(Wrong(asked.columns.get(field, field), error["code"], error["says"], error.get("try", "")))
    return tuple(found) or (Wrong("", "refused", problem.get("detail", "The service refused and did not say why.")),)


def price(line, rates, speed, time):
    """The priced line as the row of the table."""
    machine = rates["machines"][line.cells["machine"]]
    taken = time["result"]["cutting_time"]
    per_cut = taken["value"] * MINUTES[taken["unit"]]
    cuts = line.pieces * line.per_piece
    cutting = per_cut * cuts
    beside = machine["setup_minutes"] + machine["minutes_per_piece"] * line.pieces + machine["minutes_per_cut"] * cuts
    cost = max(machine["per_hour"] / 60 * (cutting + beside), rates["least_charge"])
    result = speed["result"]
    row = {name: line.cells[name] for name in ("order", "line", "part", "operation", "machine")}
    row |= {
        "pieces": str(line.pieces),
        "per_piece": str(line.per_piece),
        # A name of another standard stands for one of the tables; this is the one that the price is for.
        "material": speed["inputs"].get("material", ""),
        "spindle_speed [rpm]": shown(result, "spindle_speed", "rpm", "0.1"),
        "cutting_speed [m/min]": shown(result, "cutting_speed", "m/min", "0.1"),
        "feed_rate [mm/min]": shown(result, "feed_rate", "mm/min", "0.1"),
        "minutes_per_cut [min]": rounded(per_cut, "0.001"),
        "minutes_cutting [min]": rounded(cutting, "0.01"),
        "minutes_in_all [min]": rounded(cutting + beside, "0.01"),
        "price": rounded(cost, "0.01"),
        "currency": rates["currency"],
        "load [percent]": shown(result, "load", "percent", "1"),
        "limited_by": " ".join(result.get("limited_by", ())),
        "notes": " ".join(dict.fromkeys(note["code"] for note in speed["notes"] + time["notes"])),
        "cautions": BETWEEN.join(dict.fromkeys(caution["says"] for caution in speed["cautions"] + time["cautions"])),
        "service_version": speed["version"],
        "data_version": speed["data_version"],
        # Another shop's file can mean other speeds of the same machine.
        "shop_version": speed.get("shop", {}).get("hash", "none"),
        "key": line.key,
    }
    return {name: row[name] for name in COLUMNS}


def shown(result, name, unit, step):
    """A quantity of the answer in the unit of its column; empty where the answer has none, as a saw has no spindle."""
    if name not in result:
        return ""
    if result[name]["unit"] != unit:
        raise ValueError(f"{name} is in {result[name]['unit']}, not in {unit}")
    return rounded(result[name]["value"], step)


def rounded(value, step):
    """A number to a step, halves up."""
    return f"{Decimal(value).quantize(Decimal(step), ROUND_HALF_UP):f}"
