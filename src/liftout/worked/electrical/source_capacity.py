"""What a source gives in a phase: its rating, or less at the engine speed of the phase with the hottest air round it.

Where its output is told and no engine speed for the phase, it gives no more than at its best point in that air.
"""

from collections.abc import Sequence

from liftout.facts import Fact, Facts, Missing
from liftout.facts.electrical import AT_IDLE, OutputPoint, Source, SourceInPhase
from liftout.worked import worked
from liftout.worksheet import Worksheet


@worked
def source_capacity(case: SourceInPhase, facts: Facts) -> Worksheet:
    sheet = Worksheet()
    source = case.source
    sheet.given("C_r", source.rating, "rating of the source")
    least = ["C_r"]
    if case.phase in source.at_phase:
        sheet.given("C_p", source.at_phase[case.phase], "what it gives at the engine speed of the phase")
        least.append("C_p")
    elif case.phase in AT_IDLE and not source.output:
        sheet.needs(source.at_idle)
    if source.output and case.phase not in source.at_phase:
        if case.phase in AT_IDLE or isinstance(case.engine_speed, Fact):
            _at_speed(sheet, case)
        else:
            best = max(in_hottest_air(sheet, source), key=lambda point: point.current.value.si)
            sheet.given("C_n", best.current, "its largest output in the hottest air; no engine speed is told for the phase")
        least.append("C_n")
    sheet.work("C", least[0] if len(least) == 1 else f"min({', '.join(least)})", f"capacity, {case.phase}", "A", places=2)
    return sheet


def _at_speed(sheet: Worksheet, case: SourceInPhase) -> None:
    """Read the declared output at the engine speed of the phase; below its slowest point nobody may suppose anything."""
    sheet.needs(case.engine_speed, case.source.hottest)
    assert isinstance(case.engine_speed, Fact)
    curve = in_hottest_air(sheet, case.source)
    sheet.given("n", case.engine_speed, f"engine speed, {case.phase}")
    speed = case.engine_speed.value.si
    slower = [point for point in curve if point.engine_speed.value.si <= speed]
    faster = [point for point in curve if point.engine_speed.value.si > speed]
    if not slower:
        need = f"measure what the {case.source.name} gives at an engine speed of at most {case.engine_speed.value}"
        sheet.needs(Missing(need, case.source.at_idle.where))
    if not faster:
        sheet.given("C_f", slower[-1].current, "output at the fastest point told, which is not above this speed")
        sheet.work("C_n", "C_f", "output at the engine speed of the phase", "A", places=2)
        return
    between(sheet, slower[-1], faster[0])
    sheet.work("C_n", "I_1 + (I_2 - I_1) * (n - n_1) / (n_2 - n_1)", "output at the engine speed of the phase", "A", places=2)


def in_hottest_air(sheet: Worksheet, source: Source) -> Sequence[OutputPoint]:
    """The points of the output told for the coolest air that is at least as hot as the hottest; the sheet ends where there are none."""
    # Each of them decides which points are taken.
    sheet.needs(source.hottest, *(value for point in source.output for value in (point.temperature, point.engine_speed)))
    assert isinstance(source.hottest, Fact)
    hot = [point for point in source.output if point.temperature.value.si >= source.hottest.value.si]
    if not hot:
        need = f"measure what the {source.name} gives by engine speed with the air round it at {source.hottest.value} or hotter"
        sheet.needs(Missing(need, source.at_idle.where))
    temperature = min(point.temperature.value.si for point in hot)
    return [point for point in hot if point.temperature.value.si == temperature]


def between(sheet: Worksheet, slower: OutputPoint, faster: OutputPoint) -> None:
    """Put in the two points of the output between which a straight line is drawn."""
    sheet.given("n_1", slower.engine_speed, "engine speed of the slower point")
    sheet.given("I_1", slower.current, "output there")
    sheet.given("n_2", faster.engine_speed, "engine speed of the faster point")
    sheet.given("I_2", faster.current, "output there")
    sheet.rests_on(slower.temperature, faster.temperature)
