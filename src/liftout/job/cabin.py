"""What a job says of the cabin itself."""

from liftout.job.values import Grounded, Volume, asked


class Cabin(Grounded):
    """The cabin."""

    volume: Volume | None = asked("measure or read the free volume of the cabin", "free volume")
