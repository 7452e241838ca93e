"""Tables, pictures and sentences on a terminal: pure functions of the plan, and what prints them.

`console` has the one look of all tables and the width they may take; `wording` has the words and
figures of the trade in the job's unit. A module is named for what it shows. Papers and the client
page take tables and sentences from here, so that all of them say the same.
"""
