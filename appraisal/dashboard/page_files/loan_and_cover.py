from appraisal.dashboard.frame import open_screen

open_screen("loan_and_cover")
