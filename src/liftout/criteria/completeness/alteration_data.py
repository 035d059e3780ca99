"""The data that each line of the alteration is made to.

Requires: for each item, circuit, loop and opening a person has named the data that it is fitted to, with number, revision and name.
Because: a calculation supports data and is none; whoever signs for the alteration answers for the data that it was made to.
Method: kind, number, revision and name are read out of the job; a line that nobody has filled in is referred, and so is one without data.
Leaves out: whether the data covers the line, and which kind is needed, which the authority or a licensed person decides.
"""

from liftout.criteria import criterion
from liftout.facts import Fact, Facts, Missing
from liftout.facts.alterations import Alteration
from liftout.findings import Finding, Referral
from liftout.worksheet import Worksheet


@criterion(each="alterations")
def alteration_data(line: Alteration, facts: Facts) -> Finding:
    sheet = Worksheet()
    if isinstance(line.data, Missing) or line.data.value == "none":
        if isinstance(line.data, Fact):
            sheet.rests_on(line.data)
        return sheet.refer(
            Referral(
                f"To which data is the {line.what} {line.name} fitted?",
                f"{'no data, as the job says' if isinstance(line.data, Fact) else 'a blank in the job'}; drawings and steps of the installation manual",
                "the licensed person who answers for the alteration",
                "kind, number and revision of the data, and who named it, in the job under alterations",
            )
        )
    sheet.needs(line.data, *line.marks.values())
    told = ", ".join(f"{name} {mark.value}" for name, mark in line.marks.items() if isinstance(mark, Fact))
    sheet.count("n", len(line.marks), f"marks of the data of the {line.name} that the job tells", line.place)
    sheet.count("n_all", len(line.marks), "marks that tell data from other data", line.place)
    return sheet.at_least("n", "n_all", case={"data": told})
