"""Units and ranges: what no source can mean."""

import re
from decimal import Decimal

import pytest

from areafit.tables import Tables
from areafit.tables.area import TemperatureClass
from areafit.tables.chemicals import Drying
from areafit.tables.load import rows
from areafit.tables.materials import Material, SurfaceClass
from areafit.tables.resistance import Mechanism, Rating, ResistanceRow
from areafit.tables.substances import LayerState
from areafit.verdict import Basis

T = Tables.shipped()
SUBSTANCES = [T.substances(name)[0] for name in T.ids("substances")]
DUSTS = [T.dusts(name)[0] for name in T.ids("dusts")]
MATERIALS = [T.materials(name)[0] for name in T.ids("materials")]
CHEMICALS = [T.chemicals(name)[0] for name in T.ids("chemicals")]


def _check_digit(cas: str) -> bool:
    match = re.fullmatch(r"(\d{2,7})-(\d{2})-(\d)", cas)
    if match is None:
        return False
    digits = (match[1] + match[2])[::-1]
    return sum(int(digit) * place for place, digit in enumerate(digits, 1)) % 10 == int(match[3])


def test_there_is_enough_of_each() -> None:
    assert len(SUBSTANCES) >= 220
    assert len(DUSTS) >= 60
    assert len(MATERIALS) >= 115
    assert len(CHEMICALS) >= 100


@pytest.mark.parametrize("kind", ["substances", "dusts", "chemicals"])
def test_cas_numbers_have_a_right_check_digit(kind: str) -> None:
    found = {"substances": SUBSTANCES, "dusts": DUSTS, "chemicals": CHEMICALS}[kind]
    wrong = [row.id for row in found if row.cas and not _check_digit(row.cas)]  # type: ignore[attr-defined]
    assert wrong == []


def test_one_substance_has_one_cas_number() -> None:
    numbers = [row.cas for row in SUBSTANCES if row.cas]
    assert len(numbers) == len(set(numbers))


def test_flammable_limits_are_percentages_in_order() -> None:
    for row in SUBSTANCES:
        for limit in (*row.lower_limit, *row.upper_limit):
            assert 0 < limit.value <= 100, row.id
        for low in row.lower_limit:
            for high in row.upper_limit:
                if low.system == high.system:
                    assert low.value < high.value, row.id


def test_autoignition_lies_above_the_flash_point() -> None:
    rusty_iron = {"hydrazine"}  # the published figure is ignition on rusted iron
    for row in SUBSTANCES:
        ait, flash = row.lowest_autoignition(), row.lowest_flash_point()
        if ait and flash and row.id not in rusty_iron:
            assert ait.value > flash.value + 60, row.id


def test_temperatures_are_in_celsius() -> None:
    for row in SUBSTANCES:
        for ait in row.autoignition:
            assert 20 <= ait.value <= 720, row.id
        for flash in row.flash_point:
            assert -110 <= flash.value <= 140, row.id


def test_vapour_density_is_molar_mass_over_that_of_air() -> None:
    for row in SUBSTANCES:
        if row.vapour_density and row.molar_mass:
            computed = row.molar_mass / Decimal("28.964")
            assert abs(row.vapour_density.value / computed - 1) <= Decimal("0.02"), row.id


def test_molar_mass_follows_from_the_formula() -> None:
    # IUPAC abridged standard atomic weights 2021
    weights = {
        "C": "12.011", "H": "1.008", "O": "15.999", "N": "14.007", "S": "32.06", "F": "18.998",
        "Cl": "35.45", "Br": "79.904", "Si": "28.085", "P": "30.974", "Se": "78.971",
    }  # fmt: skip
    for row in SUBSTANCES:
        if row.formula and row.molar_mass:
            parts = re.findall(r"([A-Z][a-z]?)(\d*)", row.formula)
            assert "".join(a + n for a, n in parts) == row.formula, row.id
            mass = sum(Decimal(weights[a]) * int(n or 1) for a, n in parts)
            assert abs(mass - row.molar_mass) < Decimal("0.06"), row.id


def test_gaps_and_ratios_agree_with_the_iec_group_or_say_so() -> None:
    # MESG limits of the groups: IEC 60079-20-1, from memory: IIA from 0.9, IIC to 0.5 mm.
    for row in SUBSTANCES:
        if row.mesg and row.group_iec:
            gap = row.mesg[0].value
            group = "IIA" if gap >= Decimal("0.9") else "IIC" if gap <= Decimal("0.5") else "IIB"
            assert row.group_iec.value == group or row.group_iec.note, row.id


def test_groups_are_words_of_their_system() -> None:
    for gas in SUBSTANCES:
        assert gas.group_iec is None or gas.group_iec.value in {"IIA", "IIB", "IIC"}
        assert gas.group_nec is None or gas.group_nec.value in set("ABCD")
    for dust in DUSTS:
        assert dust.group_iec is not None, dust.id
        assert dust.group_iec.value in {"IIIA", "IIIB", "IIIC"}
        assert dust.group_nec is None or dust.group_nec.value in set("EFG")


def test_the_groups_with_seals_are_the_milder_ones_of_the_five_substances() -> None:
    # NFPA 70:2008, 500.6(A)(2) exceptions 1 and 2
    found = {
        row.id: (row.group_nec.value, row.group_nec_with_seals.value)
        for row in SUBSTANCES
        if row.group_nec and row.group_nec_with_seals
    }
    assert found == {
        "1-3-butadiene": ("B", "D"),
        "acrolein": ("B", "C"),
        "allyl-glycidyl-ether": ("B", "C"),
        "ethylene-oxide": ("B", "C"),
        "n-butyl-glycidyl-ether": ("B", "C"),
        "propylene-oxide": ("B", "C"),
    }


def test_dust_temperatures_and_layers() -> None:
    for dust in DUSTS:
        for cloud in dust.cloud:
            assert 150 <= cloud.value <= 900, dust.id
        for layer in dust.layers:
            assert (layer.value is None) == (
                layer.state not in {LayerState.EXACT, LayerState.ABOVE}
            ), dust.id
            if layer.value is not None:
                assert 120 <= layer.value <= 900, dust.id
                assert layer.thickness_mm in {Decimal(5), Decimal("12.7")}, dust.id


def test_metals_conduct_and_do_not_carbonise() -> None:
    for dust in DUSTS:
        if dust.group_nec and dust.group_nec.value == "E":
            assert dust.conductive is True, dust.id
            assert dust.carbonises is False, dust.id


@pytest.mark.parametrize("row", MATERIALS, ids=lambda row: row.id)
def test_a_material_is_plausible(row: Material) -> None:
    assert row.density_g_cm3 is not None
    lightest = Decimal("0.1") if row.family == "natural material" else Decimal("0.8")  # cork
    assert lightest <= row.density_g_cm3 <= 20
    if row.tmin_c is not None and row.tmax_c is not None:
        assert row.tmin_c < row.tmax_c
    for name in ("light_metal_pct_max", "mg_ti_zr_pct_max", "cu_pct_max"):
        content = getattr(row, name)
        assert content is not None, name
        assert 0 <= content <= 100
    assert row.mg_ti_zr_pct_max is not None
    assert row.light_metal_pct_max is not None
    assert row.mg_ti_zr_pct_max <= row.light_metal_pct_max
    if row.pren is not None:
        assert row.cr_pct is not None
        computed = row.cr_pct + Decimal("3.3") * (row.mo_pct or 0) + 16 * (row.n_pct or 0)
        assert abs(row.pren - computed) <= Decimal("0.15")
    if "stainless" in row.family:
        assert row.carbon_max_pct is not None
        assert row.stabilised is not None
    if row.anodic_index_mv is not None:
        assert 0 <= row.anodic_index_mv <= 1850
        assert row.anodic_source_id
        # the pages seen end at 0.75 V; everything beyond is recalled
        assert row.anodic_index_mv <= 750 or row.anodic_basis is not Basis.SEEN
    if "metal" in row.uses:
        assert row.surface in {SurfaceClass.CONDUCTIVE, SurfaceClass.INSULATING_FILM}
        assert row.anodic_index_mv is not None


def test_analogies_end_at_a_row_and_never_turn_in_circles() -> None:
    for kind, found in (("materials", MATERIALS), ("chemicals", CHEMICALS)):
        links = {row.id: row.behaves_as for row in found}
        for start, first in links.items():
            seen, at = {start}, first
            while at:
                assert at in links, (kind, start, at)
                assert at not in seen, (kind, start, at)
                seen.add(at)
                at = links[at]


def test_the_forbidden_analogies_are_not_made() -> None:
    # exposure practice: sulphides of 303, plasticiser of PVC, hydrogen in hard steel, acetal
    def pairs(material: str, chemical: str) -> list[str]:
        return [left for left, _ in T.analogues(material, chemical)]

    assert "304" not in pairs("303", "hydrochloric-acid")
    assert "PVC-U" not in pairs("PVC-cable-jacket", "toluene")
    assert "PVC-U" not in pairs("PVC-P", "toluene")
    assert "carbon-steel" not in pairs("alloy-steel-12.9", "sulfuric-acid")
    assert "carbon-steel" in pairs("alloy-steel-12.9", "toluene")
    assert "POM-C" not in pairs("POM-H", "sodium-hydroxide")
    assert "POM-C" in pairs("POM-H", "toluene")
    assert "TPU-ether" not in pairs("TPU-ester", "hot-water")


def test_chemicals_are_plausible() -> None:
    for row in CHEMICALS:
        if row.substance:
            assert T.substances(row.substance), row.id
        if row.assumed_pct is not None:
            assert row.assumed_pct == 100, row.id
        if row.dried_pct is not None:
            assert 0 < row.dried_pct <= 100, row.id
            assert row.drying is not Drying.EVAPORATES, row.id
        assert all(group.isdigit() for group in row.epa_groups), row.id


def test_chemicals_with_a_flash_point_are_linked_to_their_substance() -> None:
    for row in CHEMICALS:
        burning = T.substances(row.cas) if row.cas else ()
        if burning and burning[0].flash_point and row.medium.value == "liquid":
            assert row.substance == burning[0].id, row.id


def test_resistance_rows_are_bands_of_known_pairs() -> None:
    materials, chemicals = set(T.ids("materials")), set(T.ids("chemicals"))
    for row in rows("resistance", ResistanceRow):
        assert row.material in materials, f"no id of materials.csv: {row.material}"
        assert row.chemical in chemicals, f"no id of chemicals.csv: {row.chemical}"
        assert 0 <= row.conc_min_pct < row.conc_max_pct <= 100
        assert row.temp_max_c is None or 0 <= row.temp_max_c <= 400
        if row.rating is Rating.UNSUITABLE:
            assert row.mechanism is not Mechanism.NONE, row


def test_no_pair_gets_better_with_heat_within_one_band_of_a_source() -> None:
    bands: dict[tuple[object, ...], list[ResistanceRow]] = {}
    for row in rows("resistance", ResistanceRow):
        key: tuple[object, ...] = (
            row.material,
            row.chemical,
            row.conc_min_pct,
            row.conc_max_pct,
            row.source_id,
        )
        bands.setdefault(key, []).append(row)
    for key, band in bands.items():
        hot = Decimal("Infinity")
        band.sort(key=lambda row: hot if row.temp_max_c is None else row.temp_max_c)
        ranks = [row.rating.rank for row in band]
        assert ranks == sorted(ranks), key


def test_temperature_classes_fall() -> None:
    found = [row.max_c for row in rows("temperature_classes", TemperatureClass)]
    assert found == sorted(found, reverse=True)
