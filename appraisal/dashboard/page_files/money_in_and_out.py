from appraisal.dashboard.frame import open_screen

open_screen("money_in_and_out")
