"""Facts of the trade about cams and valvetrain: common practice, no source."""

SOURCE = "common practice, no source"


def test_events_of_a_cam_card_add_up_to_the_duration(agree, eng):
    # Open 12 before top and closed 44 after bottom dead center: 12 + 180 + 44 crank degrees.
    agree("CAM_DURATION", SOURCE, 236, eng("CAM_DURATION", -12, 180 + 44))


def test_a_cam_ground_on_110_and_installed_at_106_is_4_advanced(agree, eng):
    agree("CAM_ADVANCE", SOURCE, 4, eng("CAM_ADVANCE", 110, 106))


def test_separation_is_half_the_sum_of_the_centerlines(agree, eng):
    agree("LOBE_SEPARATION", SOURCE, 110, eng("LOBE_SEPARATION", 106, 114))


def test_net_lift_is_lobe_lift_times_ratio_less_lash(agree, eng):
    agree("VALVE_LIFT", SOURCE, 0.460, eng("VALVE_LIFT", 0.320, 1.5, 0.020))


def test_a_checker_of_7_8_in_four_turns_of_20_threads_out(agree, eng):
    got = eng("PUSHROD_LENGTH", 7.800, 4, 0.050, 0.040)
    agree("PUSHROD_LENGTH", SOURCE, 8.040, got)


def test_half_to_three_quarter_turns_lie_in_the_usual_preload(agree, eng):
    # Half to three quarters of a turn and 0.020 to 0.060 in are said for the same lifters, here
    # on a stud of 24 threads an inch.
    for turns in (0.5, 0.75):
        preload = eng("LIFTER_PRELOAD", turns, 1 / 24, 1.5)
        agree("LIFTER_PRELOAD", SOURCE + ", 0.020 to 0.060 in", 0.040, preload, abs=0.020)


def test_one_production_spring(agree, eng):
    # Factory service data of one roller cam: 76 lb at 1.80 in, 220 lb at 1.32 in.
    rate = eng("SPRING_RATE", 76, 1.80, 220, 1.32)
    agree("SPRING_RATE", SOURCE, 300, rate)
    agree("SPRING_LOAD", SOURCE, 220, eng("SPRING_LOAD", 76, rate, 0.48))


def test_shim_and_coil_bind_of_a_seat_cut_too_deep(agree, eng):
    # The usual total margin is 0.060 in; a shim of 0.030 in takes its thickness from it.
    shim = eng("SPRING_SHIM", 1.880, 1.850)
    agree("SPRING_SHIM", SOURCE, 0.030, shim)
    agree("COIL_BIND_MARGIN", SOURCE, 0.060, eng("COIL_BIND_MARGIN", 1.850, 1.240, 0.550))
