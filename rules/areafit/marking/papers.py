"""What stands beside a code and promises nothing: marks, papers, warnings, ratings."""

import re

from areafit.marking.tokens import Tokens
from areafit.marking.words import Filler, Found
from areafit.pattern import pattern

# In front of a mark or a category only: a number at the end of a code may say something else.
_BODY = pattern(r"[0-2][0-9]{3}")
_OPEN = {"<": ">", "(": ")", "[": "]"}
MARKS = frozenset({"ex", "eex", "aex"})
_MARKS_OF_CONFORMITY = frozenset(
    {"CE", "UKCA", "UKNI", "EAC", "NEPSI", "CNEX", "PCEC", "CCC", "INMETRO", "PESO", "KCs", "TIIS"}
)


def read_mark(tokens: Tokens, index: int) -> Found | None:
    """`CE 0123`, `0123 Ex`, `Ex 0123`, `<Ex>`: marks, and the body that supervises production."""
    if tokens.at(index).text in _MARKS_OF_CONFORMITY:
        return (Filler(),), _behind_body(tokens, index + 1)
    if tokens.at(index).text == "UK" and tokens.at(index + 1).text in {"CA", "NI"}:
        return (Filler(),), _behind_body(tokens, index + 2)
    if _BODY.fullmatch(tokens.at(index).text):
        ahead = index + 1
        opened = tokens.at(index - 1).text == "("
        marked = not opened and (starts_category(tokens, ahead) or _is_mark(tokens, ahead))
        return ((Filler(),), ahead) if marked else None
    closed = _OPEN.get(tokens.at(index).text)
    if closed and tokens.at(index + 1).low == "ex" and tokens.at(index + 2).text == closed:
        return (Filler(),), _behind_body(tokens, index + 3)
    if tokens.at(index).low == "ex":
        at = index + 1
        number = at if _BODY.fullmatch(tokens.at(at).text) else at - 1
        if starts_category(tokens, number + 1) or tokens.at(number + 1).low in MARKS:
            return (Filler(),), number + 1
    return None


def _is_mark(tokens: Tokens, index: int) -> bool:
    return tokens.at(index + (tokens.at(index).text in _OPEN)).low == "ex"


def _behind_body(tokens: Tokens, index: int) -> int:
    """The index behind `0123` or `(0123)`; the same where no number follows."""
    number = index + (tokens.at(index).text == "(")
    if _ANY_BODY.fullmatch(tokens.at(number).text) is None:
        return index
    if number == index:
        return number + 1
    return number + 2 if tokens.at(number + 1).text == ")" else index


_ANY_BODY = pattern(r"[0-9]{4}")


def starts_category(tokens: Tokens, index: int) -> bool:
    """Whether an ATEX category starts at `index`: `II 2`, `II (1)`, `I M1`."""
    after = tokens.at(index + 1)
    if tokens.at(index).text == "II":
        return after.is_number or after.text in {"(", "-"}
    return tokens.at(index).text == "I" and after.text in {"M1", "M2", "("}


# A recognised component is no listed equipment, so that word is not one of these.
_AGENCY = pattern(
    r"(?:c?(?:UL|CSA|FM|ETL|MET)(?:us)?)\b(?: (?:listed|approved|certified|classified)\b)?"
    r"(?: (?:std\.? )?[0-9]{3,8}(?:[-.:][0-9]+)*\b| (?:file )?E[0-9]{4,6}\b)?:?",
    re.IGNORECASE,
)
_STANDARD = pattern(
    r"(?:ANSI/)?(?:ISA|IEC|EN|ISO|BS EN|CSA C22\.2(?: No\b\.?)?)(?:/IEC)?[- ]?[0-9]{2,6}"
    r"(?:[-.:][0-9]+)*(?::?\+?A[0-9]+)?"
)


def read_agency(tokens: Tokens, index: int) -> Found | None:
    """`UL`, `cULus Listed`, `UL 121201`, `IEC 60079-0:2017`: who tested and by what."""
    for phrase in (_STANDARD, _AGENCY):
        at = tokens.phrase(index, phrase)
        if at is not None:
            return (Filler(),), at
    return None


_CERTIFICATE = pattern(
    r"(?:[Cc]ert(?:ificate|\.)?(?: [Nn]o\.?)?:? )?"
    r"(?:[A-Z][A-Za-z]{1,9}(?:-[A-Z])? ?[0-9]{2} ?(?:ATEX|UKEX) ?(?:[A-Z] ?)?"
    r"|IECEx [A-Z]{2,8} ?[0-9]{2}\.)[0-9A-Z]{3,8}?(?= ?[XU]\b|\W|\Z)"
    # Of EEx plates: `PTB Nr. Ex-85.B.1052`.
    r"|[A-Z]{2,5} (?:N[ro]\. ?)?Ex[- ][0-9]{2}[./](?:[A-Z]\.)?[0-9]{3,6}(?= ?[XU]\b|\W|\Z)"
    r"|[A-Z]{3,5} (?:[0-9]{2}\.[A-Z][0-9]{3,5}|Ex [0-9]{5,6})(?= ?[XU]\b|\W|\Z)"
    r"|(?:FM[0-9]{2}(?:US|CA)|GY[A-Z] ?[0-9]{2}\.)[0-9]{4}(?= ?[XU]\b|\W|\Z)"
    # The control drawing on plates such as `IS/I/1/ABCD/T4 Ta = 70 °C - 12345-1; Entity`.
    r"|- ?[0-9A-Z][0-9A-Z/-]{3,}(?=[;,]? ?(?:[Ee]ntity|ENTITY|FISCO|FNICO))"
)


def read_certificate(tokens: Tokens, index: int) -> Found | None:
    """A certificate number; the `X` or `U` behind it is read as any suffix."""
    at = tokens.phrase(index, _CERTIFICATE)
    return ((Filler(),), at) if at is not None else None


_DRAWING = pattern(
    r"(?:(?:see |per )?(?:control |installation )?(?:drawing|dwg)\b\.?(?: no\b\.?)?"
    r"|tech(?:nical|n?\.)? ?(?:file|doc(?:umentation|\.))(?: (?:ref(?:erence)?|no)\b\.?)?"
    r"|s/n|ser(?:ial\b|\.) ?-?n(?:umber|[ro])\b\.?|serial\b|(?:ser|fabr)\.?-nr\b\.?"
    r"|n[°o]\.? (?:de )?s[ée]rie"
    r"|(?:year|baujahr|bj\.|ann[ée]e)(?= ?:? ?(?:19|20)[0-9]{2}\b)):?",
    re.IGNORECASE,
)
_EDITION = pattern(r"rev(?:ision)?\.?", re.IGNORECASE)
_LONGEST_REFERENCE = 12  # tokens of a drawing number


def read_drawing(tokens: Tokens, index: int) -> Found | None:
    """`control drawing CD-77 rev 2`, `S/N 12345`: a document or a number of the maker."""
    at = tokens.phrase(index, _DRAWING)
    if at is None:
        return None
    at = _reference(tokens, at)
    edition = tokens.phrase(at, _EDITION)
    return (Filler(),), (at if edition is None else _reference(tokens, edition))


def _reference(tokens: Tokens, index: int) -> int:
    """The index behind a number such as `123-456/B`: the tokens that touch each other."""
    first = tokens.at(index)
    if not first.text or not first.text[0].isalnum():
        return index
    at = index + 1
    while at < index + _LONGEST_REFERENCE and not tokens.at(at).spaced and _in_number(tokens, at):
        at += 1
    return at


def _in_number(tokens: Tokens, index: int) -> bool:
    text = tokens.at(index).text
    return bool(text) and (text[0].isalnum() or text in {"-", "/", "."})


# The warnings that IEC 60079-0:2017, 29.13 asks for where equipment can be opened, and those of
# North American listings: how to work on it, not where it may stand. The one about electrostatic
# charge is none of them: it is a condition.
_SIGNAL = (
    r"(?:warning|caution|danger|warnung|achtung|vorsicht|avertissement|attention"
    r"|attenzione|avvertenza|advertencia|atenci[óo]n)[ !:,.-]*"
)
_ALIVE = (
    r"(?:(?:when|while|if) (?:energi[sz]ed|live|under load|under voltage"
    r"|(?:an? )?(?:explosive|flammable)(?: gas| dust)? atmosphere(?: (?:is|may be) present)?))"
)
_WARNING = pattern(
    rf"(?:{_SIGNAL})?(?:explosion hazard[ !:,.-]*)?(?:"
    r"do not disconnect (?:equipment )?(?:while (?:the )?circuit is live"
    r"|unless power has been (?:removed|switched off))(?:,? or)?"
    r"(?: unless)?(?: the)? area is known to be (?:free of ignitible concentrations|non-?hazardous)"
    rf"|do not (?:open|separate|disconnect|operate|remove (?:or replace )?(?:the )?fuses?) {_ALIVE}"
    r"|separate only in a non-?hazardous area"
    r"|after de-?energi[sz]ing,? (?:delay|wait) [0-9]+ ?(?:s|seconds|min|minutes) before opening"
    r"|keep (?:cover )?tight(?:ly closed)? (?:while|when) "
    r"(?:circuits? (?:is|are) (?:alive|live)|energi[sz]ed)"
    r"|substitution of components may impair (?:intrinsic safety"
    r"|suitability for (?:class I,? )?div(?:ision|\.) ?2)"
    r"|nicht unter (?:spannung|last) (?:öffnen|trennen|ziehen)"
    r"|nicht in explosionsf[äa]higer atmosph[äa]re öffnen"
    r"|ne pas (?:ouvrir|s[ée]parer) (?:sous tension|en charge"
    r"|(?:en|si une) (?:pr[ée]sence d )?atmosph[èe]re explosi(?:ve|ble)(?: est pr[ée]sente)?)"
    r"|non aprire (?:sotto tensione|in presenza di atmosfera esplosiva)"
    r"|no abrir (?:(?:con|bajo|en) tensi[óo]n|en (?:una )?atm[óo]sfera explosiva)"
    r")\b",
    re.IGNORECASE,
)


def read_warning(tokens: Tokens, index: int) -> Found | None:
    """`WARNING - DO NOT OPEN WHEN ENERGIZED`: a rule for work on the equipment."""
    at = tokens.phrase(index, _WARNING)
    return ((Filler(),), at) if at is not None else None


_NUMBER = r"[0-9]+(?:[.,][0-9]+)?"
_RATINGS = pattern(
    # Supply and power, `3~ 400 V 50/60 Hz 1,5 kW`, which say nothing of the protection.
    # Not `11A`, which is a misprinted group.
    rf"(?!1{{2,3}}A\b)(?:max\.? )?(?:(?:AC|DC|UC) )?{_NUMBER}(?: ?(?:-|\.\.+|/) ?{_NUMBER})? ?"
    r"(?:[mk]?V(?:[AD]C)?|[mkμ]?A|k?Hz|[mk]?W|k?VA|kvar|A?h|rpm|min-1|1/min)\b"
    r"(?: ?(?:AC\b|DC\b|UC\b|\.\.|=))?(?: (?:[YΔ]/[ΔDY]|[ΔD]/Y)(?!\w))?(?: ?max\b\.?)?"
    r"(?: ?± ?[0-9]{1,2} ?%)?"
    # Entity parameters of IEC 60079-11 and of North America; circuits are compared elsewhere.
    r"|(?:[UIPCLR][iom]|[UVIP]max|[UIP][nNeB]|V(?:oc|t)|I(?:sc|t)|C[ai]|L[ao]|[LR]o/[RL]o|Li/Ri) ?"
    rf"(?:(?:<=|[=:≈]) ?)?{_NUMBER}(?: ?(?:[mk]?V|[mμ]?A|m?W|[pnμ]?F|[nμm]?H(?:/Ω)?|[μm]?H|m?Ω)\b)?"
    r"|[CL]i(?:,? ?(?:and|und|et|/|,) ?[CL]i)? "
    r"(?:negligibl[ey](?: small)?|vernachlässigbar(?: klein)?)"
    # Starting of motors with type e (IEC 60079-7), degree of impact, insulation, power factor.
    rf"|tE ?[=:]? ?{_NUMBER} ?s\b|I[AS]/IN ?[=:]? ?{_NUMBER}|IK(?:0[0-9]|10)\b"
    rf"|(?:cos ?φ|cosphi) ?[=:]? ?{_NUMBER}"
    r"|(?:[Ii]ns(?:ul(?:ation)?)?|[Ii]so|[Tt]h)\.?[- ]?(?:[Cc]l(?:ass)?|[Kk]l(?:asse)?)\.? ?[BFH]\b"
    r"|S1\b"
    # Threads of cable entries.
    rf"|M[1-9][0-9]{{1,2}}(?: ?x ?{_NUMBER})?(?!\w)|(?:[0-9] )?[0-9]/[0-9] ?-?NPT\b"
)


def read_rating(tokens: Tokens, index: int) -> Found | None:
    """`230 V 50 Hz`, `Ui = 30 V`, `tE 12 s`: what the equipment takes, not where it may stand."""
    at = tokens.phrase(index, _RATINGS)
    return ((Filler(),), at) if at is not None else None
