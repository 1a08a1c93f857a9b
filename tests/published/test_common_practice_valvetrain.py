"""Facts of the trade about cams and valvetrain: common practice, no source."""

SOURCE = "common practice, no source"


def test_events_of_a_cam_card_add_up_to_the_duration(agree, eng):
    # Open 12 before top and closed 44 after bottom dead center: 12 + 180 + 44 crank degrees.
    agree("CAM_DURATION", SOURCE, 236, eng("CAM_DURATION", -12, 180 + 44))


def test_a_cam_ground_on_110_and_installed_at_106_is_4_advanced(agree, eng):
    agree("CAM_ADVANCE", SOURCE, 4, eng("CAM_ADVANCE", 110, 106))


def test_separation_is_half_the_sum_of_the_centerlines(agree, eng):
    agree("LOBE_SEPARATION", SOURCE, 110, eng("LOBE_SEPARATION", 106, 114))
