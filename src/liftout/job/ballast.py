"""What a job says of ballast."""

from liftout.job.values import Arm, Grounded, Mass, Weight, Word, asked, chosen, told


class BallastPlace(Grounded):
    """A place of its own, in no compartment, where fixed ballast may be carried."""

    arm: Arm | None = asked("measure the arm of the place for ballast", "its arm")
    datum: Word = told("name of the datum of the arm")
    most: Weight | None = asked(
        "take from the maker's or the designer's data what the place may hold", "most that its structure and fastening may hold"
    )
    amount: Mass | None = chosen(
        "say how much ballast the fit adds there, 0 lb for none",
        "fixed ballast that the fit adds there and that the weight record lacks; 0 lb for none",
    )
