"""Lifts a view of one plant to all plants: the same statement with the plant in every key.

Every table, view and CTE of a lifted statement has the plant as its first column; every join,
group, window and subquery is held to one plant. What a statement holds that is not known to be
liftable is refused, never guessed. DuckDB runs the views plant by plant instead; the two ways must
give the same rows (tests/fleet).
"""

from __future__ import annotations

from collections.abc import Iterator

from sqlglot import expressions as exp

from eol.errors import EngineError

PLANT = "plant"
PLANTS = "lake_plant"
"""The relation that lists the plants, one a row."""

_SIDES = {"", "LEFT", "INNER"}
_KINDS = {"", "INNER", "OUTER", "CROSS", "SEMI", "ANTI"}
_REFUSED_PARTS = ("limit", "offset", "order", "laterals", "pivots", "sample", "windows", "connect")


def lifted(query: exp.Query, *, name: str) -> exp.Query:
    """Return a query over one plant as one over all plants, the plant as its first column.

    Args:
        query: a SELECT, a UNION of them, or either with CTEs; not changed.
        name: the view it is of, for errors.

    Raises:
        EngineError: it holds something that cannot be lifted; the message says what.
    """
    copy = query.copy()
    try:
        _lift_query(copy)
    except _NotLiftableError as error:
        raise EngineError(
            f"this view cannot run over many plants at once: {error}",
            where=f"queries/views/{name}",
            hint="Write it in the portable subset of DEVELOPERS.md, or ask it of one plant with eol sql.",
        ) from error
    return copy


class _NotLiftableError(ValueError):
    """A part of a statement that is not known to be liftable."""


def _lift_query(query: exp.Expr, *, shown: bool = True) -> None:
    """Lift in place; `shown` puts the plant into the columns."""
    for cte in query.args["with_"].expressions if query.args.get("with_") else ():
        if cte.args["alias"].columns:
            raise _NotLiftableError("a CTE that names its columns in brackets")
        _lift_query(cte.this)
    if isinstance(query, exp.SetOperation):
        if query.args.get("by_name"):
            raise _NotLiftableError("UNION BY NAME")
        _lift_query(query.this)
        _lift_query(query.expression)
    elif isinstance(query, exp.Subquery):
        _lift_query(query.this)
    elif isinstance(query, exp.Select):
        _lift_select(query, shown=shown)
    else:
        raise _NotLiftableError(f"a {query.key} where a SELECT was expected")


def _lift_select(select: exp.Select, *, shown: bool) -> None:
    for part in _REFUSED_PARTS:
        if select.args.get(part):
            raise _NotLiftableError(part.upper())
    if isinstance(select.args.get("distinct"), exp.Distinct) and select.args["distinct"].args.get(
        "on"
    ):
        raise _NotLiftableError("DISTINCT ON")
    inner = list(_own_subqueries(select))
    over_all = _aggregates_all(select)
    first = _lift_sources(select)
    for subquery in inner:
        _hold_to_plant(subquery, first)
    for window in _own(select, exp.Window):
        window.args.setdefault("partition_by", [])
        window.set("partition_by", [_plant_of(first), *(window.args["partition_by"] or [])])
    if over_all:
        first = _each_plant(select, first)
    _lift_group(select, first, over_all=over_all)
    if shown:
        _show_plant(select, first)


def _lift_sources(select: exp.Select) -> str:
    """Hold the joined sources to one plant; return the alias of the first source."""
    source = select.args.get("from_")
    if source is None:
        select.set("from_", exp.From(this=exp.to_table(PLANTS)))
        return PLANTS
    first = _lift_source(source.this)
    for join in select.args.get("joins") or ():
        _lift_join(join, first)
    return first


def _lift_source(source: exp.Expr) -> str:
    if isinstance(source, exp.Subquery):
        _lift_query(source.this)
    elif not isinstance(source, exp.Table) or not isinstance(source.this, exp.Identifier):
        raise _NotLiftableError(f"a source that is no table, view or subquery: {source.sql()}")
    if not source.alias_or_name:
        raise _NotLiftableError("a subquery without a name")
    return str(source.alias_or_name)


def _lift_join(join: exp.Join, first: str) -> None:
    side, kind = (join.args.get("side") or "").upper(), (join.args.get("kind") or "").upper()
    if (
        side not in _SIDES
        or kind not in _KINDS
        or join.args.get("using")
        or join.args.get("method")
    ):
        raise _NotLiftableError(f"the join {join.sql()[:60]}")
    alias = _lift_source(join.this)
    same = exp.EQ(this=_plant_of(alias), expression=_plant_of(first))
    condition = join.args.get("on")
    join.set("on", same if condition is None else exp.and_(condition, same, copy=False))
    if kind == "CROSS" or not (side or kind):
        join.set("kind", "INNER")


def _hold_to_plant(query: exp.Expr, outer: str) -> None:
    """Lift a subquery of a condition and let it see the rows of the outer row's plant alone."""
    if not isinstance(query, exp.Select) or query.args.get("from_") is None:
        raise _NotLiftableError("a subquery in a condition that is no plain SELECT")
    counted = _aggregates_all(query)
    if counted:
        raise _NotLiftableError("a figure over all rows in the midst of a condition")
    _lift_query(query, shown=False)
    inner = str(query.args["from_"].this.alias_or_name)
    if inner == outer:
        raise _NotLiftableError(f"a subquery that reads {inner} under the outer one's name")
    query.where(exp.EQ(this=_plant_of(inner), expression=_plant_of(outer)), copy=False)


def _each_plant(select: exp.Select, first: str) -> str:
    """A figure over all rows is one row even of none: start from the plants, and join the rows to them."""
    source, joins = select.args["from_"].this, select.args.get("joins") or []
    for count in _own(select, exp.Count):
        if isinstance(count.this, exp.Star):
            count.set("this", _plant_of(first))
    if joins:
        # Both sides are put in brackets, so that a row is there whole or not at all.
        source.set("joins", joins)
        source = exp.Paren(this=source) if isinstance(source, exp.Table) else source
        select.set("joins", [])
    condition: exp.Expr = exp.EQ(this=_plant_of(first), expression=_plant_of(PLANTS))
    where = select.args.get("where")
    if where is not None:
        condition = exp.and_(condition, where.this, copy=False)
        select.set("where", None)
    select.set("from_", exp.From(this=exp.to_table(PLANTS)))
    select.append("joins", exp.Join(this=source, side="LEFT", on=condition))
    return PLANTS


def _lift_group(select: exp.Select, first: str, *, over_all: bool) -> None:
    group = select.args.get("group")
    if group is None and over_all:
        select.set("group", exp.Group(expressions=[_plant_of(first)]))
    elif group is not None and not group.args.get("all"):
        special = [name for name in ("grouping_sets", "cube", "rollup") if group.args.get(name)]
        if special or any(isinstance(item, exp.Literal) for item in group.expressions):
            raise _NotLiftableError("GROUP BY with places, ROLLUP, CUBE or GROUPING SETS")
        group.set("expressions", [_plant_of(first), *group.expressions])


def _show_plant(select: exp.Select, first: str) -> None:
    """Put the plant first; a star over the first source brings it already."""
    shown = select.expressions
    stars = [item for item in shown if item.is_star]
    if not stars:
        plant = exp.alias_(_plant_of(first), PLANT, quoted=True)
        select.set("expressions", [plant, *shown])
    elif len(stars) > 1 or shown[0] is not stars[0] or not _is_star_of(stars[0], first, select):
        raise _NotLiftableError("a star that is not the first column, or not of the first source")


def _is_star_of(star: exp.Expr, first: str, select: exp.Select) -> bool:
    if isinstance(star, exp.Star):
        return not select.args.get("joins")
    return isinstance(star, exp.Column) and star.table == first


def _aggregates_all(select: exp.Select) -> bool:
    """Tell whether a SELECT makes one figure of all its rows."""
    if select.args.get("group"):
        return False
    return any(not _in_window(found, select) for found in _own(select, exp.AggFunc))


def _in_window(node: exp.Expr, select: exp.Select) -> bool:
    while node is not select and node.parent is not None:
        if isinstance(node, exp.Window):
            return True
        node = node.parent
    return False


def _own(select: exp.Select, kind: type[exp.Expr]) -> Iterator[exp.Expr]:
    """Give what stands in the SELECT itself: not in its sources, CTEs or subqueries."""
    parts = [*select.expressions, *(select.args.get(n) for n in ("where", "having", "qualify"))]
    for part in [part for part in parts if part is not None]:
        for found in part.walk(prune=lambda node: isinstance(node, exp.Query)):
            if isinstance(found, kind):
                yield found


def _own_subqueries(select: exp.Select) -> Iterator[exp.Expr]:
    """Give the subqueries of the conditions and columns, not those within them."""
    for found in _own(select, exp.Query):
        yield found.this if isinstance(found, exp.Subquery) else found


def _plant_of(alias: str) -> exp.Column:
    return exp.column(PLANT, table=alias, quoted=True)
