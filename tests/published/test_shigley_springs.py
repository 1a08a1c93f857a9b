"""Shigley, Mechanical Engineering Design, chapter 10: helical compression springs."""

SOURCE = "Shigley, Mechanical Engineering Design, Example 10-1 (from memory)"


def test_rate_of_example_10_1(agree, eng):
    # No. 16 music wire, 0.037 in; outside diameter 7/16 in, so 0.400 in between wire centers as
    # the book rounds it; 12.5 turns with squared ends, so 10.5 active; 11.85e6 psi: 4.13 lbf/in.
    got = eng("SPRING_RATE_FROM_WIRE", 0.037, 0.400, 12.5 - 2, 11.85e6)
    agree("SPRING_RATE_FROM_WIRE", SOURCE, 4.13, got, rel=5e-4)


def test_load_at_the_deflection_of_example_10_1(agree, eng):
    # 6.46 lbf to compress by 1.56 in, both rounded in the book.
    agree("SPRING_LOAD", SOURCE, 6.46, eng("SPRING_LOAD", 0.01, 4.13, 1.56), abs=0.03)


def test_free_length_less_solid_length_of_example_10_1(agree, eng):
    # Free length 2.06 in, solid length 0.500 in, compressed by 1.56 in: coils just together.
    got = eng("COIL_BIND_MARGIN", 2.06, 0.500, 1.56)
    agree("COIL_BIND_MARGIN", SOURCE, 0.0, got, abs=1e-9)


def test_modulus_of_the_example_s_music_wire(agree, eng):
    # 11.85e6 psi for its thin wire; the table here holds valve spring sizes.
    agree("SHEAR_MODULUS", SOURCE, 11.85e6, eng("SHEAR_MODULUS", "music wire"), rel=0.03)
