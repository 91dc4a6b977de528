-- Records as format 5 wrote them, dumped once; never made again.
BEGIN TRANSACTION;
CREATE TABLE erasing (pupil TEXT PRIMARY KEY) STRICT;
CREATE TABLE practices (
        number INTEGER PRIMARY KEY,
        id TEXT NOT NULL UNIQUE,
        pupil TEXT NOT NULL,
        began_at TEXT NOT NULL,
        plan TEXT NOT NULL,
        seed INTEGER NOT NULL,
        settings TEXT NOT NULL,
        program_version TEXT NOT NULL
    , aim TEXT NOT NULL DEFAULT 'practise'
        CHECK (aim IN ('practise', 'probe', 'find-out')), checksum INTEGER NOT NULL DEFAULT 0) STRICT
    ;
INSERT INTO "practices" VALUES(1,'f9639ef4-e98f-5f11-bdaf-ce2e0d2e78e5','pupil-1','2031-05-12T09:29:58.000Z','{"grid": "title = \"Seats on the ferry\"\nadd = [5, 8]\nstart = [47, 59]\n"}',31,'{"speech": {"rate_wpm": 170, "voice": "gmw/en", "pitch": 50, "volume_percent": 90}, "waits": {"said_back_ms": 1000, "after_number_ms": 1300, "after_bare_ten_ms": 2500, "counting_ms": 4000, "after_other_ms": 1300, "between_sentences_ms": 700}, "listening": {"engine": "neural", "ear": null, "vocal_tract_factor": 1.0, "vocal_tract_answers": 0, "learn_vocal_tract": true}, "wording": {"length": "short"}, "helping": {"most_help_turns": 6, "most_help_speech_ms": 75000}, "choosing": {"right_percent": null, "confidence": "usual"}, "sound": {"microphone": null, "loudspeaker": null, "headset": null, "cues": true, "echo_ms": 100}, "window": {"colours": "black on white", "size": 5, "view": "sum", "screen_reader": false}, "keys": {"enter": null, "backspace": null, "say_again": null, "help": null, "where_am_i": null, "not_what_i_said": null, "skip": null, "stop": null, "left": null, "right": null, "up": null, "down": null, "home": null, "end": null, "tab": null, "shift_tab": null, "escape": null, "keys_aloud": null, "adult": null, "bigger": null, "smaller": null, "view": null, "colours": null}, "braille": {"letters_as_digits": false}, "start": {"asked": false, "by": "voice"}}','0.1.0','practise',1832576336);
INSERT INTO "practices" VALUES(2,'19c5ee1b-5dbb-5c00-96b0-7b379743055e','pupil-1','2031-05-12T09:29:58.000Z','{"grid": "title = \"Rolls in the bakery\"\nadd = [6, 7]\nstart = [28, 65]\n", "cells": [[1, 1], [0, 0], [0, 1]]}',31,'{"speech": {"rate_wpm": 170, "voice": "gmw/en", "pitch": 50, "volume_percent": 90}, "waits": {"said_back_ms": 1000, "after_number_ms": 1300, "after_bare_ten_ms": 2500, "counting_ms": 4000, "after_other_ms": 1300, "between_sentences_ms": 700}, "listening": {"engine": "neural", "ear": null, "vocal_tract_factor": 1.0, "vocal_tract_answers": 0, "learn_vocal_tract": true}, "wording": {"length": "short"}, "helping": {"most_help_turns": 6, "most_help_speech_ms": 75000}, "choosing": {"right_percent": null, "confidence": "usual"}, "sound": {"microphone": null, "loudspeaker": null, "headset": null, "cues": true, "echo_ms": 100}, "window": {"colours": "black on white", "size": 5, "view": "sum", "screen_reader": false}, "keys": {"enter": null, "backspace": null, "say_again": null, "help": null, "where_am_i": null, "not_what_i_said": null, "skip": null, "stop": null, "left": null, "right": null, "up": null, "down": null, "home": null, "end": null, "tab": null, "shift_tab": null, "escape": null, "keys_aloud": null, "adult": null, "bigger": null, "smaller": null, "view": null, "colours": null}, "braille": {"letters_as_digits": false}, "start": {"asked": false, "by": "voice"}}','0.1.0','probe',2289401650);
INSERT INTO "practices" VALUES(3,'14f1c407-82f0-5aa8-a79a-bbc80920d355','pupil-1','2031-05-12T09:29:58.000Z','{"grid": "title = \"Seats on the ferry\"\nadd = [5, 8]\nstart = [47, 59]\n"}',31,'{"speech": {"rate_wpm": 170, "voice": "gmw/en", "pitch": 50, "volume_percent": 90}, "waits": {"said_back_ms": 1000, "after_number_ms": 1300, "after_bare_ten_ms": 2500, "counting_ms": 4000, "after_other_ms": 1300, "between_sentences_ms": 700}, "listening": {"engine": "neural", "ear": null, "vocal_tract_factor": 1.0, "vocal_tract_answers": 0, "learn_vocal_tract": true}, "wording": {"length": "short"}, "helping": {"most_help_turns": 6, "most_help_speech_ms": 75000}, "choosing": {"right_percent": null, "confidence": "usual"}, "sound": {"microphone": null, "loudspeaker": null, "headset": null, "cues": true, "echo_ms": 100}, "window": {"colours": "black on white", "size": 5, "view": "sum", "screen_reader": false}, "keys": {"enter": null, "backspace": null, "say_again": null, "help": null, "where_am_i": null, "not_what_i_said": null, "skip": null, "stop": null, "left": null, "right": null, "up": null, "down": null, "home": null, "end": null, "tab": null, "shift_tab": null, "escape": null, "keys_aloud": null, "adult": null, "bigger": null, "smaller": null, "view": null, "colours": null}, "braille": {"letters_as_digits": false}, "start": {"asked": false, "by": "voice"}}','0.1.0','practise',406965820);
INSERT INTO "practices" VALUES(4,'493bc111-2fed-565b-947f-51f8f64f592b','pupil-1','2031-05-12T09:29:58.000Z','{"grid": "title = \"Seats on the ferry\"\nadd = [5, 8]\nstart = [47, 59]\n", "then": [{"aim": "probe", "grid": "title = \"Rolls in the bakery\"\nadd = [6, 7]\nstart = [28, 65]\n", "cells": [[1, 1], [0, 0]]}]}',31,'{"speech": {"rate_wpm": 170, "voice": "gmw/en", "pitch": 50, "volume_percent": 90}, "waits": {"said_back_ms": 1000, "after_number_ms": 1300, "after_bare_ten_ms": 2500, "counting_ms": 4000, "after_other_ms": 1300, "between_sentences_ms": 700}, "listening": {"engine": "neural", "ear": null, "vocal_tract_factor": 1.0, "vocal_tract_answers": 0, "learn_vocal_tract": true}, "wording": {"length": "short"}, "helping": {"most_help_turns": 6, "most_help_speech_ms": 75000}, "choosing": {"right_percent": null, "confidence": "usual"}, "sound": {"microphone": null, "loudspeaker": null, "headset": null, "cues": true, "echo_ms": 100}, "window": {"colours": "black on white", "size": 5, "view": "sum", "screen_reader": false}, "keys": {"enter": null, "backspace": null, "say_again": null, "help": null, "where_am_i": null, "not_what_i_said": null, "skip": null, "stop": null, "left": null, "right": null, "up": null, "down": null, "home": null, "end": null, "tab": null, "shift_tab": null, "escape": null, "keys_aloud": null, "adult": null, "bigger": null, "smaller": null, "view": null, "colours": null}, "braille": {"letters_as_digits": false}, "start": {"asked": false, "by": "voice"}}','0.1.0','practise',4269061191);
CREATE TABLE rows (
        practice TEXT NOT NULL REFERENCES practices (id),
        serial INTEGER NOT NULL CHECK (serial >= 0),
        id TEXT NOT NULL UNIQUE,
        kind TEXT NOT NULL CHECK (kind IN ('ask', 'answer', 'void', 'note', 'end')),
        at TEXT NOT NULL,
        at_ms INTEGER NOT NULL,
        fields TEXT NOT NULL, checksum INTEGER NOT NULL DEFAULT 0,
        PRIMARY KEY (practice, serial)
    ) STRICT, WITHOUT ROWID
    ;
INSERT INTO "rows" VALUES('14f1c407-82f0-5aa8-a79a-bbc80920d355',0,'2709e56d-f6ad-5a71-8dfe-d5ec3c61b3b1','ask','2031-05-12T09:30:00.250Z',0,'{"row": 1, "column": 0, "part": "whole", "support": "independent", "because": null, "activity": 0, "exercise": "sum", "hidden": "total", "form": "first", "about": null, "lines": []}',3730904533);
INSERT INTO "rows" VALUES('14f1c407-82f0-5aa8-a79a-bbc80920d355',1,'e6d810dc-eec9-5d3b-92d3-5f254cc698a8','answer','2031-05-12T09:30:00.250Z',1,'{"row": 1, "column": 0, "start": 59, "amount": 5, "part": "whole", "right_answer": 64, "given": 54, "right": false, "support": "independent", "tries": 1, "certainty": 0.93, "close_to": [64], "heard": "422bbf74-1e02-59b2-a1c6-87e8d8fd6a43", "took_ms": 1840, "could_be": ["new-ten-lost", "subtracted"], "by": "voice", "settled": "said-back", "operation": "add", "purpose": "practice", "activity": 0, "exercise": "sum", "hidden": "total", "sure": true, "way": null}',600901877);
INSERT INTO "rows" VALUES('14f1c407-82f0-5aa8-a79a-bbc80920d355',2,'ef8dc832-9843-574d-9e96-1f27a1516c02','ask','2031-05-12T09:30:00.250Z',2,'{"row": 1, "column": 0, "part": "gap", "support": "asked", "because": "e6d810dc-eec9-5d3b-92d3-5f254cc698a8", "activity": 0, "exercise": "sum", "hidden": "total", "form": "after-wrong", "about": null, "lines": []}',1582128980);
INSERT INTO "rows" VALUES('14f1c407-82f0-5aa8-a79a-bbc80920d355',3,'2d8436ca-d092-56f5-ae65-6b16355d8625','answer','2031-05-12T09:30:00.250Z',3,'{"row": 1, "column": 0, "start": 59, "amount": 5, "part": "gap", "right_answer": 1, "given": 2, "right": false, "support": "asked", "tries": 1, "certainty": 0.9, "close_to": [], "heard": "422bbf74-1e02-59b2-a1c6-87e8d8fd6a43", "took_ms": 1840, "could_be": ["gap-off-by-one"], "by": "voice", "settled": "followed", "operation": "add", "purpose": "practice", "activity": 0, "exercise": "sum", "hidden": "total", "sure": false, "way": null}',3141338873);
INSERT INTO "rows" VALUES('14f1c407-82f0-5aa8-a79a-bbc80920d355',4,'df94be21-5197-5e12-9c0e-4f8604fb130e','ask','2031-05-12T09:30:00.250Z',4,'{"row": 1, "column": 0, "part": "gap", "support": "asked", "because": "2d8436ca-d092-56f5-ae65-6b16355d8625", "activity": 0, "exercise": "sum", "hidden": "total", "form": "again", "about": null, "lines": []}',579218366);
INSERT INTO "rows" VALUES('14f1c407-82f0-5aa8-a79a-bbc80920d355',5,'44a04f49-90ab-5a8c-9a64-c3ef0ca391bb','ask','2031-05-12T09:30:00.250Z',5,'{"row": 1, "column": 0, "part": "total", "support": "asked", "because": "help", "activity": 0, "exercise": "sum", "hidden": "total", "form": "step-done", "about": "gap", "lines": []}',2274689217);
INSERT INTO "rows" VALUES('493bc111-2fed-565b-947f-51f8f64f592b',0,'d9e70390-554d-5a15-aa44-fc67d69997ab','ask','2031-05-12T09:30:00.250Z',250,'{"row": 0, "column": 0, "part": "whole", "support": "independent", "because": null, "activity": 0, "exercise": "sum", "hidden": "total", "form": null, "about": null, "lines": []}',2293049100);
INSERT INTO "rows" VALUES('493bc111-2fed-565b-947f-51f8f64f592b',1,'5037e950-537d-55cb-be5d-a44d485b4a19','ask','2031-05-12T09:30:00.250Z',500,'{"row": 1, "column": 1, "part": "whole", "support": "independent", "because": null, "activity": 1, "exercise": "sum", "hidden": "total", "form": null, "about": null, "lines": []}',1397855331);
INSERT INTO "rows" VALUES('f9639ef4-e98f-5f11-bdaf-ce2e0d2e78e5',0,'09b4ef06-e935-5c4d-8a20-27213130d388','ask','2031-05-12T09:30:00.250Z',0,'{"row": 0, "column": 0, "part": "whole", "support": "independent", "because": null, "activity": 0, "exercise": "sum", "hidden": "total", "form": null, "about": null, "lines": []}',3402384853);
INSERT INTO "rows" VALUES('f9639ef4-e98f-5f11-bdaf-ce2e0d2e78e5',1,'f66c3b7f-9fcc-5670-9aac-0f27f01c35bc','answer','2031-05-12T09:30:00.250Z',1,'{"row": 1, "column": 0, "start": 59, "amount": 5, "part": "whole", "right_answer": 64, "given": 54, "right": false, "support": "independent", "tries": 1, "certainty": 0.93, "close_to": [64], "heard": "40cf31f8-5b5a-557b-aa96-bc7425538e02", "took_ms": 1840, "could_be": ["new-ten-lost", "subtracted"], "by": "voice", "settled": "said-back", "operation": "add", "purpose": "practice", "activity": 0, "exercise": "sum", "hidden": "total", "sure": true, "way": null}',1367628811);
INSERT INTO "rows" VALUES('f9639ef4-e98f-5f11-bdaf-ce2e0d2e78e5',2,'5c63a39d-93ee-5a12-b06e-3a6beca69d5d','void','2031-05-12T09:30:00.250Z',2,'{"of": "f66c3b7f-9fcc-5670-9aac-0f27f01c35bc", "why": "wrong-pupil"}',861998690);
INSERT INTO "rows" VALUES('f9639ef4-e98f-5f11-bdaf-ce2e0d2e78e5',3,'42d45a7d-3efb-50a1-af53-2825d7a47b7d','note','2031-05-12T09:30:00.250Z',3,'{"of": null, "what": "text", "value": "counted on her fingers \u2026 \u2713", "by": "adult"}',3152782210);
INSERT INTO "rows" VALUES('f9639ef4-e98f-5f11-bdaf-ce2e0d2e78e5',4,'57fcf9cd-b104-5d43-b2f9-3805ffa77d82','end','2031-05-12T09:30:00.250Z',4,'{"cells": 4, "right_first_time": 3, "reason": "stopped"}',3832553601);
CREATE INDEX practices_of_a_pupil ON practices (pupil, number);
CREATE TRIGGER rows_are_never_deleted BEFORE DELETE ON rows
    WHEN NOT EXISTS (
        SELECT 1 FROM practices JOIN erasing USING (pupil) WHERE practices.id = OLD.practice
    )
    BEGIN SELECT raise(ABORT, 'rows are only added'); END;
CREATE TRIGGER rows_are_never_replaced BEFORE INSERT ON rows
    WHEN EXISTS (
        SELECT 1 FROM rows WHERE id = NEW.id OR (practice = NEW.practice AND serial = NEW.serial)
    )
    BEGIN SELECT raise(ABORT, 'rows are only added'); END;
CREATE TRIGGER practices_are_never_deleted BEFORE DELETE ON practices
    WHEN NOT EXISTS (SELECT 1 FROM erasing WHERE pupil = OLD.pupil)
    BEGIN SELECT raise(ABORT, 'practices are only added'); END;
CREATE TRIGGER practices_are_never_replaced BEFORE INSERT ON practices
    WHEN EXISTS (SELECT 1 FROM practices WHERE id = NEW.id OR number = NEW.number)
    BEGIN SELECT raise(ABORT, 'practices are only added'); END;
CREATE TRIGGER practices_are_never_changed BEFORE UPDATE ON practices
    BEGIN SELECT raise(ABORT, 'practices are only added'); END;
CREATE TRIGGER rows_are_never_changed BEFORE UPDATE ON rows
    BEGIN SELECT raise(ABORT, 'rows are only added'); END;
PRAGMA application_id = 1398887507;
PRAGMA user_version = 5;
COMMIT;
