"""The formulas that ask the service, as text.

Each question has three cells: the address asked, what came back as text, and what the reader sees. `service_base`,
`answer_units`, `answer_digits`, `again_mark`, `length_unit`, `feed_unit`, `machine` and `spindle_steps` are names of
cells on the first sheet.

LibreOffice asks each address once while a file is open. `again_mark` is a fragment, which is part of the address for
the program and never sent; a hard recalculation changes it.
"""

NOT_THERE = "NO ANSWER"
REFUSED = "REFUSED:"


def encoded(text):
    """A cell or text as it may stand in an address."""
    return f"_xlfn.ENCODEURL({text})"


def given(field, cell):
    """`&field=…` where the cell is filled, nothing where it is empty."""
    return f'IF({cell}="","","&{field}="&{encoded(cell)})'


def always(field, text):
    """`&field=…` whatever the text, so that an empty cell is refused in words."""
    return f'"&{field}="&{encoded(text)}'


MACHINE = given("machine", "machine")
STEPS = given("available", "spindle_steps")


def address(calculator, parts, used, after=None):
    """The address asked, without what is picked; empty while `used` is. Where an earlier answer that it
    builds on is no number, that answer's words stand in its place."""
    asked = f'service_base&"/v1/{calculator}.txt?refusals=text&units="&answer_units&' + "&".join(parts)
    if after:
        asked = f'IF(OR(LEFT({after},{len(REFUSED)})="{REFUSED}",{after}="{NOT_THERE}"),{after},{asked})'
    return f'=IF({used}="","",{asked})'


def fetched(asked, pick, digits="answer_digits", when=None):
    """What came back: digits, a word, a refusal in words, or that nothing came. `pick` stands within quotes."""
    digits = digits if digits == "answer_digits" else f'"{digits}"'
    get = f'_xlfn.WEBSERVICE({asked}&"&digits="&{digits}&"&pick={pick}"&again_mark)'
    # Nothing can be told apart when a fetch fails: no service, a wrong address, or fetching not allowed.
    tried = f'IF(LEFT({asked},4)="http",IFERROR({get},"{NOT_THERE}"),{asked})'
    return f'=IF({when or asked}="","",{tried})'


def number(answer):
    """The number of what came back. Digits come with a point whatever the reader's country writes."""
    read = f'IFERROR(_xlfn.NUMBERVALUE({answer},".",","),"no answer")'
    return f'=IF({answer}="","",IF(LEFT({answer},{len(REFUSED)})="{REFUSED}","refused",{read}))'


def words(answer):
    """The words of what came back."""
    told = f'IF({answer}="{NOT_THERE}","no answer",{answer})'
    return f'=IF({answer}="","",IF(LEFT({answer},{len(REFUSED)})="{REFUSED}","refused",{told}))'


def reason(answers):
    """Why a row lacks a number: the words of its first refusal."""
    formula = '""'
    for answer in reversed(answers):
        said = f"MID({answer},{len(REFUSED) + 2},600)"
        nothing = '"No answer: is the service running, the address right, and fetching allowed?"'
        formula = f'IF(LEFT({answer},{len(REFUSED)})="{REFUSED}",{said},IF({answer}="{NOT_THERE}",{nothing},{formula}))'
    return f"={formula}"


def count(blocks, test):
    """How many cells of some blocks pass a test with `{}` for the block."""
    return "+".join(f"SUMPRODUCT(--({test.format(block)}))" for block in blocks)


def asked_in(blocks):
    """How many questions were asked."""
    return count(blocks, "LEN({})>0")


def refused_in(blocks):
    """How many were refused."""
    return count(blocks, f'LEFT({{}},{len(REFUSED)})="{REFUSED}"')
