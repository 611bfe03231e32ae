"""What a mechanism means for a part, and what would have to be accepted or done."""

from areafit.tables.resistance import Mechanism

_M = Mechanism
_CONDITION = {
    _M.CREVICE: "no crevice, gasket or deposit may hold the liquid",
    _M.PITTING: "pits must be acceptable, looked for and cleaned off",
    _M.STRESS_CORROSION: "the part must carry no lasting tension at this temperature",
    _M.ENVIRONMENTAL_STRESS_CRACKING: "the part must be free of stress, from moulding too",
    _M.OZONE_CRACKING: "the rubber must not be stretched",
    _M.DEHYDROFLUORINATION: "the part must be unstressed and be replaced on a schedule",
    _M.SWELLING: "swelling of about 20 to 40 % must be acceptable; in moving seals it is not",
    _M.HYDROLYSIS: "the part must be inspected and replaced on a schedule",
    _M.OXIDATION: "embrittlement must be looked for, and the part replaced on a schedule",
    _M.PLASTICISER_LOSS: "hardening must be acceptable; a flexing part will crack",
    _M.INTERGRANULAR: "the grade must be low in carbon or stabilised and free of sensitised welds",
    _M.DEZINCIFICATION: "the brass must be proof against dezincification",
    _M.PERMEATION: "what permeates must do no harm behind the part",
    _M.DISBONDING: "the coating must be inspected and repaired",
    _M.UNIFORM: "a loss of 0.1 to 1 mm a year must be acceptable",
    _M.UNIFORM_WITH_HYDROGEN: "a loss of 0.1 to 1 mm a year and the hydrogen must be acceptable",
    _M.ETCHING: "etched glass must be acceptable",
    _M.EMBRITTLEMENT: "strength and hardness must stay low",
    _M.ACETYLIDE: "copper must stay below 65 %",
    _M.SULFIDE: "tarnish must be acceptable, or the sulphur shown to stay low",
}


def condition(mechanism: Mechanism) -> str:
    """What somebody must accept where a material is limited."""
    return _CONDITION.get(mechanism, "somebody must accept the limited resistance")
