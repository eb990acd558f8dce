"""HiGHS without a word: its usual start greets on stdout before it can be told not to."""

import highspy


class Quiet(highspy.Highs):
    """A HiGHS instance on one thread that prints nothing."""

    def __init__(self) -> None:
        super(highspy.Highs, self).__init__()
        self.setOptionValue("output_flag", False)
        self.setOptionValue("threads", 1)
