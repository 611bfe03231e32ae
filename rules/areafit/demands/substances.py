"""A substance of a place: what the list states of it, merged with the tables.

The more onerous of own value and table value governs. A laxer figure of a dust, or flash point,
governs only with a document beside its source; without one the table's value stays and
`substance-known` says so. A laxer group or autoignition temperature never governs, whoever wrote
it where: they belong to the substance, not to the sample (ISO/IEC 80079-20-1). It is kept beside
the table's, so that a part that meets nothing but it is unproven and not refused.
"""

from collections.abc import Iterable, Iterator
from decimal import Decimal

from areafit.facts.groups import Group, GroupScheme, severity
from areafit.facts.place import PresentSubstance
from areafit.facts.protection import Hazard
from areafit.facts.quantity import number
from areafit.rule import Row
from areafit.tables import Tables
from areafit.tables.names import nearest
from areafit.tables.sources import Cited, LaxerValue
from areafit.tables.substances import Dust, Layer, LayerState, Property, Substance
from areafit.values import Frozen, replace
from areafit.verdict import Basis, at_least


class GoverningTemperature(Frozen):
    """A temperature in °C that governs, with its rows; own test values cite their source.

    `milder` is a higher one that somebody stated of a substance that the table has.
    """

    value: Decimal
    rows: tuple[Row, ...]
    milder: tuple[Decimal, Row] | None = None


class LayerIgnition(Frozen):
    """What is known of a dust layer: its ignition temperature in °C, or that it melts."""

    value: Decimal | None
    melts: bool
    rows: tuple[Row, ...]


class ResolvedSubstance(Frozen):
    """A substance at a place. `path` is where the list names it, relative to the place.

    `nearest` holds known names where no table has this one and it states no own values.
    `approved` holds a company's milder values of its row, which never govern. Of a component
    `mixture` is the liquid that it is part of: whatever its share, its group and ignition
    temperature count, and its flash point is that of the liquid.
    """

    stated: PresentSubstance
    path: str
    gas: Substance | None = None
    dust: Dust | None = None
    from_chemical: bool = False
    nearest: tuple[str, ...] = ()
    approved: tuple[LaxerValue, ...] = ()
    mixture: PresentSubstance | None = None

    @property
    def name(self) -> str:
        """The name as the list writes it."""
        return self.stated.name

    @property
    def known(self) -> bool:
        """Whether a table row or own values say what the substance is."""
        return self.gas is not None or self.dust is not None or self.stated.has_own_values

    @property
    def hazards(self) -> frozenset[Hazard]:
        """What the substance may form; both where nothing is known of it."""
        own = self.stated
        if self.mixture is not None or own.mixture is not None:
            return frozenset({Hazard.GAS})
        dusty = own.cloud_ignition is not None or own.layer_ignition is not None
        vapour = own.autoignition is not None or own.flash_point is not None
        found = {Hazard.DUST} if self.dust is not None or dusty else set()
        if self.gas is not None or vapour:
            found.add(Hazard.GAS)
        if not found and own.group is not None:
            found.add(_HAZARDS[own.group.scheme])
        return frozenset(found or {Hazard.GAS, Hazard.DUST})

    def group(self, scheme: GroupScheme) -> tuple[Group, tuple[Row, ...]] | None:
        """The group that the substance asks for in a scheme, with its rows; None if unknown.

        A dust said to be conductive is IIIC, whatever group is stated (IEC 60079-0:2017 4.4).
        """
        if self.stated.conductive and scheme is GroupScheme.ZONE_DUST:
            return Group.IIIC, (self._own_row("group", "conductive: IIIC"),)
        return self._group(scheme)

    def _group(self, scheme: GroupScheme) -> tuple[Group, tuple[Row, ...]] | None:
        cited = self.table_group(scheme)
        row = self._row(cited, "group") if cited is not None else None
        table = Group(cited.value) if cited is not None else None
        own = self.stated.group
        disputed = self._disputed(cited)
        if own is None or own.scheme is not scheme:
            return (table, (row, *disputed)) if table is not None and row is not None else None
        if table is None or row is None:
            return own, (self._own_row("group", own.value),)
        governs = _as_severe(own, table)
        own_row = self._own_row("group", own.value)
        return (own, _supporting(own_row, (row,))) if governs else (table, (row, *disputed))

    def _disputed(self, governing: Cited[str] | None) -> tuple[Row, ...]:
        """The lines of other sources that have a milder group, shown beside what governs."""
        known = self.gas or self.dust
        if governing is None or known is None:
            return ()
        return tuple(
            replace(self._row(line, "group"), governs=False)
            for line in known.groups_disputed
            if line.system == governing.system
        )

    def milder_group(self, scheme: GroupScheme) -> tuple[Group, Row] | None:
        """The mildest group stated in a scheme, if it is milder than the table's."""
        cited = self.table_group(scheme)
        if cited is None:
            return None
        own = self.stated.group
        stated = [(own, self._milder_row("group", own.value))] if own is not None else []
        stated += [
            (Group(e.value), _own_table_row(e)) for e in self.approved if e.column == "group"
        ]
        milder = [
            each
            for each in stated
            if each[0].scheme is scheme and not _as_severe(each[0], Group(cited.value))
        ]
        return min(milder, key=lambda each: severity(each[0]) or 0, default=None)

    def autoignition(self) -> GoverningTemperature | None:
        """The autoignition temperature that governs, every list's figure among the rows."""
        own = self.stated.autoignition
        found = self._lowest(self.gas.autoignition if self.gas is not None else (), own, _HEAT)
        if found is None or self.gas is None:
            return found
        stated = [(own, self._milder_row(_HEAT, f"{own} °C"))] if own is not None else []
        stated += [
            (Decimal(e.value), _own_table_row(e))
            for e in self.approved
            if e.column == Property.AUTOIGNITION.value
        ]
        milder = [each for each in stated if each[0] > found.value]
        return replace(found, milder=max(milder, key=lambda each: each[0], default=None))

    def flash_point(self) -> GoverningTemperature | None:
        """The flash point that governs, every list's figure among the rows."""
        cited = self.gas.flash_point if self.gas is not None else ()
        return self._lowest(cited, self.stated.flash_point, "flash point", self.milder_allowed)

    def cloud(self) -> GoverningTemperature | None:
        """The ignition temperature of the dust cloud that governs."""
        cited = self.dust.cloud if self.dust is not None else ()
        return self._lowest(
            cited, self.stated.cloud_ignition, "cloud ignition", self.milder_allowed
        )

    def layer(self) -> LayerIgnition | None:
        """What is known of the dust layer, however thick the one tested; None where nothing is."""
        return self._layer(None)

    def thin_layer(self, thickness: Decimal) -> LayerIgnition | None:
        """The same of layers tested at this thickness in mm or less; own figures are of such."""
        return self._layer(thickness)

    def _layer(self, thickness: Decimal | None) -> LayerIgnition | None:
        own, melts = self.stated.layer_ignition, self.stated.layer_melts
        layers = self.dust.layers if self.dust is not None else ()
        usable = [
            layer
            for layer in layers
            if _states_a_layer(layer)
            and (thickness is None or (layer.thickness_mm or 0) <= thickness)
        ]
        rows = tuple(self._layer_row(layer) for layer in usable)
        figures = [(layer, layer.value) for layer in usable if layer.value is not None]
        lowest, value = min(figures, key=lambda pair: pair[1], default=(None, None))
        if own is not None and _governs(own, value, allowed=self.milder_allowed):
            own_row = self._own_row("layer ignition", f"{own} °C")
            return LayerIgnition(own, bool(melts), _supporting(own_row, rows))
        if lowest is not None:
            return LayerIgnition(value, bool(melts), _supporting(self._layer_row(lowest), rows))
        if melts or usable:
            return LayerIgnition(None, melts=True, rows=rows)
        return None

    @property
    def carbonises(self) -> bool | None:
        """Whether the dust may dehydrate or carbonise; None where it is not known."""
        own, table = self.stated.carbonises, self.dust.carbonises if self.dust else None
        if own is False and table and not self.milder_allowed:
            return True
        return own if own is not None else table

    def group_with_seals(self) -> tuple[Group, Row] | None:
        """The milder Division letter that the seal exception allows, with its row."""
        cited = self.gas.group_nec_with_seals if self.gas is not None else None
        if cited is None:
            return None
        return Group(cited.value), self._row(cited, "group with conduit seals")

    @property
    def milder_allowed(self) -> bool:
        """Whether laxer own figures of the sample govern: they have a document."""
        return self.stated.document is not None

    def table_group(self, scheme: GroupScheme) -> Cited[str] | None:
        """The group that the tables give in a scheme."""
        match scheme:
            case GroupScheme.ZONE_GAS:
                return self.gas.group_iec if self.gas is not None else None
            case GroupScheme.DIVISION_GAS:
                return self.gas.group_nec if self.gas is not None else None
            case GroupScheme.ZONE_DUST:
                return self.dust.group_iec if self.dust is not None else None
            case GroupScheme.DIVISION_DUST:
                return self.dust.group_nec if self.dust is not None else None
            case _:
                return None

    def _lowest(
        self,
        cited: tuple[Cited[Decimal], ...],
        own: Decimal | None,
        what: str,
        allowed: bool = False,  # noqa: FBT001, FBT002 - within
    ) -> GoverningTemperature | None:
        rows = tuple(self._row(each, what, " °C") for each in cited)
        lowest = min(cited, key=_lowest_best, default=None)
        if own is not None and _governs(own, lowest.value if lowest else None, allowed=allowed):
            return GoverningTemperature(own, _supporting(self._own_row(what, f"{own} °C"), rows))
        if lowest is None:
            return None
        return GoverningTemperature(lowest.value, _supporting(self._row(lowest, what, " °C"), rows))

    def _key(self, what: str, system: str = "") -> str:
        known = self.gas or self.dust
        name = known.id if known is not None else self.name
        return f"{name} {what}" + (f" ({system.upper()})" if system else "")

    def _row(self, cited: Cited[str] | Cited[Decimal], what: str, unit: str = "") -> Row:
        table = "substances" if self.gas is not None else "dusts"
        return Row(
            table,
            self._key(what, cited.system),
            cited.source_id,
            cited.locator,
            cited.basis,
            f"{cited.value}{unit}",
        )

    def _layer_row(self, layer: Layer) -> Row:
        value = "melts" if layer.value is None else f"{layer.value} °C"
        key = self._key("layer ignition")
        return Row.of("dusts", key, layer, value)

    def _own_row(self, what: str, value: str) -> Row:
        where = "; ".join(x for x in (self.stated.source, self.stated.document) if x)
        return Row("stated in the list", self._key(what), where, self.path, Basis.SEEN, value)

    def _milder_row(self, what: str, value: str) -> Row:
        """A milder own value as it is cited: it contradicts what is published."""
        return replace(self._own_row(what, value), basis=Basis.JUDGEMENT)


def _own_table_row(entry: LaxerValue) -> Row:
    key = f"{entry.key} {entry.column}"
    return Row("own tables", key, entry.where, entry.approved, Basis.JUDGEMENT, entry.value)


def _governs(own: Decimal, table: Decimal | None, *, allowed: bool) -> bool:
    return table is None or own <= table or allowed


def _supporting(deciding: Row, others: Iterable[Row]) -> tuple[Row, ...]:
    """The row that decides, and every other one that is at least as well founded.

    A milder value that rests on less decides nothing, so it must not weaken the basis either.
    """
    beside = (row for row in others if row != deciding and at_least(row.basis, deciding.basis))
    return (deciding, *dict.fromkeys(beside))


_HEAT = "autoignition"
_TRUST = list(Basis)


def _lowest_best(cited: Cited[Decimal]) -> tuple[Decimal, int]:
    """Lowest value first; of equal ones the best founded."""
    return cited.value, _TRUST.index(cited.basis)


_HAZARDS = {
    GroupScheme.MINES: Hazard.GAS,
    GroupScheme.ZONE_GAS: Hazard.GAS,
    GroupScheme.DIVISION_GAS: Hazard.GAS,
    GroupScheme.ZONE_DUST: Hazard.DUST,
    GroupScheme.DIVISION_DUST: Hazard.DUST,
}


def _as_severe(own: Group, table: Group) -> bool:
    """Whether the own group is at least as onerous as the table's."""
    own_rank, table_rank = severity(own), severity(table)
    if own_rank is None or table_rank is None:
        return own is table
    return own_rank >= table_rank


def _states_a_layer(layer: Layer) -> bool:
    return layer.value is not None or layer.state is LayerState.MELTS


def resolve(stated: PresentSubstance, path: str, tables: Tables) -> tuple[ResolvedSubstance, ...]:
    """Look a stated substance up among gases and dusts.

    A name that several rows answer to yields them all, so that the most onerous governs; an
    unknown one stays without a row. A name of one's own, be it in the list or in own tables, yields
    the rows of the listed names that it contains too: it is judged no milder than they are. A
    stated mixture yields its components, and itself where it states own values.
    """
    if stated.mixture is not None:
        return tuple(_components(stated, path, tables))
    gases, dusts = tables.substances(stated.name), tables.dusts(stated.name)
    unknown = not (gases or dusts or stated.has_own_values)
    more_gases, more_dusts = _contained(stated, gases, dusts, tables)
    gases = tuple(dict.fromkeys((*gases, *more_gases)))
    dusts = tuple(dict.fromkeys((*dusts, *more_dusts)))
    pairs: tuple[tuple[Substance | None, Dust | None], ...]
    if len(gases) <= 1 and len(dusts) <= 1 and not unknown:
        pairs = ((next(iter(gases), None), next(iter(dusts), None)),)
    else:
        pairs = (*((gas, None) for gas in gases), *((None, dust) for dust in dusts))
    found = tuple(
        ResolvedSubstance(stated, path, gas, dust, approved=tables.never_governing(gas, dust))
        for gas, dust in pairs
    )
    if not unknown:
        return found
    near = (*tables.nearest("dusts", stated.name), *tables.nearest("substances", stated.name))
    return (ResolvedSubstance(stated, path, nearest=nearest(stated.name, near)), *found)


def _components(stated: PresentSubstance, path: str, tables: Tables) -> Iterator[ResolvedSubstance]:
    """What a mixture holds that burns, or may."""
    from areafit.demands.liquids import component_known  # noqa: PLC0415 - only of a mixture

    if stated.has_own_values:
        yield ResolvedSubstance(stated, path)
    for one in stated.mixture.components if stated.mixture is not None else ():
        own = PresentSubstance(one.name, temperature=stated.temperature)
        known = component_known(one.name, tables)
        for gas in known.gases:
            approved = tables.never_governing(gas, None)
            yield ResolvedSubstance(own, path, gas, approved=approved, mixture=stated)
        if not known.gases and not known.burns_not:
            near = nearest(one.name, tables.nearest("substances", one.name))
            yield ResolvedSubstance(own, path, nearest=near, mixture=stated)


def _contained(
    stated: PresentSubstance, gases: Iterable[Substance], dusts: Iterable[Dust], tables: Tables
) -> tuple[tuple[Substance, ...], tuple[Dust, ...]]:
    """The rows of shipped names that a name of one's own contains, or shares the CAS number of.

    Own values and rows say whether a gas or a dust is meant; without them it may be either.
    """
    shipped = Tables.shipped()
    if shipped.substances(stated.name) or shipped.dusts(stated.name):
        return (), ()
    meant = ResolvedSubstance(stated, "", next(iter(gases), None), next(iter(dusts), None)).hazards
    numbers = (*(gas.cas for gas in gases), *(dust.cas for dust in dusts))
    texts = (stated.name, *filter(None, numbers))
    return (
        tables.substances_within(texts) if Hazard.GAS in meant else (),
        tables.dusts_within(texts) if Hazard.DUST in meant else (),
    )


def laxer_values(substance: ResolvedSubstance) -> tuple[str, ...]:
    """Each laxer own value without a document, in words."""
    if substance.milder_allowed:
        return ()
    return (
        *_laxer_temperatures(substance),
        *_laxer_group(substance),
        *_laxer_carbonises(substance),
    )


def _laxer_temperatures(substance: ResolvedSubstance) -> Iterator[str]:
    own, gas, dust = substance.stated, substance.gas, substance.dust
    layer = dust.lowest_layer() if dust is not None else None
    pairs: tuple[tuple[str, Decimal | None, Decimal | None], ...] = (
        ("autoignition", own.autoignition, _value(gas.lowest_autoignition() if gas else None)),
        ("flash point", own.flash_point, _value(gas.lowest_flash_point() if gas else None)),
        ("cloud ignition", own.cloud_ignition, _value(dust.lowest_cloud() if dust else None)),
        ("layer ignition", own.layer_ignition, layer.value if layer is not None else None),
    )
    for word, value, table in pairs:
        if value is not None and table is not None and value > table:
            yield f"{word} {number(value)} °C (the table has {number(table)} °C)"


def _value(cited: Cited[Decimal] | None) -> Decimal | None:
    return cited.value if cited is not None else None


def _laxer_group(substance: ResolvedSubstance) -> Iterator[str]:
    own = substance.stated.group
    table = substance.table_group(own.scheme) if own is not None else None
    if own is not None and table is not None and not _as_severe(own, Group(table.value)):
        yield f"group {own.value} (the table has {table.value})"


def _laxer_carbonises(substance: ResolvedSubstance) -> Iterator[str]:
    dust = substance.dust
    if substance.stated.carbonises is False and dust is not None and dust.carbonises:
        yield "does not carbonise (the table says that it may)"
