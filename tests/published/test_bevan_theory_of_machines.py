"""Bevan, The Theory of Machines, chapter 14: balancing. Its gravity is 32.2 ft/s2."""

SOURCE = "Bevan, The Theory of Machines, ch. 14"


def test_example_5(agree, eng):
    # 180 lb rotating and half of 150 lb reciprocating at 7.5 in, balanced at 6 in by
    # 318.75 lb; the other half pulls with 1436 lbf at 300 rpm.
    source = f"{SOURCE}, Ex. 5, p. 500"
    weight = eng("BOBWEIGHT", "180 lb", "150 lb", 0.5, 1)
    agree("BOBWEIGHT", source, 318.75 * 6 / 7.5 * 453.59237, weight)
    turned = eng("UNBALANCE", weight, 7.5)
    agree("UNBALANCE", source, turned, eng("UNBALANCE", "318.75 lb", 6))
    pull = eng("RECIPROCATING_FORCE", "75 lb", 15, 30, 300, 0, "first")
    agree("RECIPROCATING_FORCE", source, 1436, pull, rel=1.5e-3)
    agree("UNBALANCE_FORCE", source, 1436, eng("UNBALANCE_FORCE", 75 * 16 * 7.5, 300), rel=1.5e-3)


def test_examples_12_and_13(agree, eng):
    # Second-order forces: 3/2 times that of 4 lb, stroke 5 in, rod 9 in at 1500 rpm is 266.07
    # lbf; twice and six times that of 6 lb, throw 3 in, rod 11 in at 2000 rpm 1114.58 and
    # 3343.74 lbf.
    one = eng("RECIPROCATING_FORCE", "4 lb", 5, 9, 1500, 0, "second")
    agree("RECIPROCATING_FORCE", f"{SOURCE}, Ex. 12, p. 517", 266.07, 1.5 * one, rel=1.5e-3)
    one = eng("RECIPROCATING_FORCE", "6 lb", 6, 11, 2000, 0, "second")
    for times, printed in ((2, 1114.58), (6, 3343.74)):
        agree("RECIPROCATING_FORCE", f"{SOURCE}, Ex. 13, p. 519", printed, times * one, rel=1.5e-3)
