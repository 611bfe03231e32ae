"""The cautions that stand in every report: what the tool does not and cannot decide."""

CAUTIONS = (
    (
        "areafit compares stated facts with tables and clauses. It does not classify an area, "
        "certify equipment or approve an installation, and it replaces neither inspection nor "
        "maintenance."
    ),
    (
        "The locally adopted code in its adopted edition, the authority having jurisdiction and, "
        "where the law asks for it, a licensed or otherwise competent person decide; every result"
        " here is for their review."
    ),
    (
        "A pass rests on what the list states. Confirm nameplates, certificates and their "
        "conditions on the delivered part; wiring, sealing, entries and assembly are part of the "
        "protection."
    ),
    (
        "Table values vary with test and sample: site data, the current standard and the safety "
        "data sheet of the product in use outrank them. Corrosion rows are for screening; test in"
        " the bath where failure matters."
    ),
    ("Unproven never counts as pass. Conforming parts alone do not make a conforming machine."),
)
