-- Records as format 10 wrote them, dumped once; never made again.
BEGIN TRANSACTION;
CREATE TABLE changes (id TEXT PRIMARY KEY, pupil TEXT NOT NULL, at TEXT NOT NULL, fields TEXT NOT NULL, checksum INTEGER NOT NULL) STRICT;
CREATE TABLE erased (code_digest TEXT PRIMARY KEY, at TEXT NOT NULL) STRICT;
CREATE TABLE erasing (pupil TEXT PRIMARY KEY) STRICT;
CREATE TABLE forks (
        practice TEXT PRIMARY KEY REFERENCES practices (id),
        root TEXT NOT NULL,
        parent TEXT NOT NULL,
        serial INTEGER NOT NULL
    ) STRICT
    ;
CREATE TABLE moves (id TEXT PRIMARY KEY, practice TEXT NOT NULL, first INTEGER NOT NULL, last INTEGER NOT NULL, pupil TEXT NOT NULL, at TEXT NOT NULL, checksum INTEGER NOT NULL) STRICT;
CREATE TABLE offers (id TEXT PRIMARY KEY, pupil TEXT NOT NULL, at TEXT NOT NULL, fields TEXT NOT NULL, checksum INTEGER NOT NULL) STRICT;
CREATE TABLE plans (id TEXT PRIMARY KEY, pupil TEXT NOT NULL, at TEXT NOT NULL, fields TEXT NOT NULL, checksum INTEGER NOT NULL) STRICT;
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
INSERT INTO "practices" VALUES(1,'03510c45-2fc3-56d7-bc3a-b6412c01a801','pupil-1','2031-05-12T09:29:58.000Z','{"grid": "title = \"Passengers\"\nsums = [\"47+?=52\", \"?+5=52\", \"47+25\"]\n"}',31,'{"speech": {"rate_wpm": 170, "voice": "gmw/en", "pitch": 50, "volume_percent": 90}, "waits": {"said_back_ms": 1000, "after_number_ms": 1300, "after_bare_ten_ms": 2500, "counting_ms": 4000, "after_other_ms": 1300, "take_your_time_ms": null, "between_sentences_ms": 700}, "listening": {"engine": "neural", "ear": null, "vocal_tract_factor": 1.0, "vocal_tract_answers": 0, "learn_vocal_tract": true}, "wording": {"length": "short"}, "helping": {"most_help_turns": 6, "most_help_speech_ms": 75000, "taking_away": "through the ten", "number_line": "off"}, "choosing": {"right_percent": null, "confidence": "usual"}, "sound": {"microphone": null, "loudspeaker": null, "headset": null, "cues": true, "echo_ms": 100}, "cues": {"ear_open": true, "ear_shut": true, "heard_you": true, "scan_step": true, "next_sum": true, "row_finished": true, "ten_reached": true, "practice_over": true}, "switch": {"first": null, "second": null, "scanning": "by itself", "pace_ms": 2000, "debounce_ms": 500, "silent_rounds": 3}, "window": {"colours": "black on white", "size": 5, "view": "sum", "sums_in_digits": false, "screen_reader": false}, "keys": {"enter": null, "backspace": null, "say_again": null, "help": null, "where_am_i": null, "not_what_i_said": null, "skip": null, "stop": null, "left": null, "right": null, "up": null, "down": null, "home": null, "end": null, "tab": null, "shift_tab": null, "escape": null, "keys_aloud": null, "adult": null, "bigger": null, "smaller": null, "view": null, "colours": null}, "braille": {"letters_as_digits": false}, "sheets": {"print_size": 24, "paper": "A4", "colours": "black on white", "braille": "uncontracted", "braille_cells": 40, "braille_lines": 25, "braille_spaces": false, "pause_ms": 6000}, "start": {"asked": false, "by": "voice"}, "sitting": {"most_sums": null, "most_minutes": null}, "desk": {"unused_minutes": 240}}','0.1.0','practise',3022114275);
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
INSERT INTO "rows" VALUES('03510c45-2fc3-56d7-bc3a-b6412c01a801',0,'077fc4ce-3026-5da3-880a-03df6cf4775f','ask','2031-05-12T09:30:00.250Z',250,'{"row": 0, "column": 0, "part": "whole", "support": "independent", "because": null, "activity": 0, "exercise": "sum", "hidden": "amount", "form": null, "about": null, "lines": []}',22155751);
INSERT INTO "rows" VALUES('03510c45-2fc3-56d7-bc3a-b6412c01a801',1,'f2357955-300f-5289-9231-ea160a6034ff','answer','2031-05-12T09:30:00.250Z',250,'{"row": 0, "column": 0, "start": 47, "amount": 5, "part": "whole", "right_answer": 5, "given": 5, "right": true, "support": "independent", "tries": 1, "certainty": 0.93, "close_to": [64], "heard": "6f9927d4-77ce-5dc3-ba70-f3b6dec653a7", "took_ms": 1840, "could_be": [], "by": "voice", "settled": "said-back", "sure": true, "operation": "add", "purpose": "practice", "activity": 0, "exercise": "sum", "hidden": "amount", "way": null}',550177318);
INSERT INTO "rows" VALUES('03510c45-2fc3-56d7-bc3a-b6412c01a801',2,'fbfa1a76-504a-5f97-98d6-61c002064729','ask','2031-05-12T09:30:00.250Z',250,'{"row": 1, "column": 0, "part": "whole", "support": "independent", "because": null, "activity": 0, "exercise": "sum", "hidden": "start", "form": null, "about": null, "lines": []}',555512667);
INSERT INTO "rows" VALUES('03510c45-2fc3-56d7-bc3a-b6412c01a801',3,'43b9bcb0-d98c-59ee-bb5a-766f02eb353e','answer','2031-05-12T09:30:00.250Z',250,'{"row": 1, "column": 0, "start": 47, "amount": 5, "part": "whole", "right_answer": 47, "given": 47, "right": true, "support": "independent", "tries": 1, "certainty": 0.93, "close_to": [64], "heard": "6f9927d4-77ce-5dc3-ba70-f3b6dec653a7", "took_ms": 1840, "could_be": [], "by": "voice", "settled": "said-back", "sure": true, "operation": "add", "purpose": "practice", "activity": 0, "exercise": "sum", "hidden": "start", "way": null}',2916563948);
INSERT INTO "rows" VALUES('03510c45-2fc3-56d7-bc3a-b6412c01a801',4,'2249dd2d-c864-5ddd-8de1-032082c4d732','ask','2031-05-12T09:30:00.250Z',250,'{"row": 2, "column": 0, "part": "after-tens", "support": "independent", "because": null, "activity": 0, "exercise": "sum", "hidden": "total", "form": null, "about": null, "lines": []}',2353451637);
INSERT INTO "rows" VALUES('03510c45-2fc3-56d7-bc3a-b6412c01a801',5,'93bb05be-d5fc-5afe-9b30-2dec4a7a002a','answer','2031-05-12T09:30:00.250Z',250,'{"row": 2, "column": 0, "start": 47, "amount": 25, "part": "after-tens", "right_answer": 67, "given": 67, "right": true, "support": "independent", "tries": 1, "certainty": 0.93, "close_to": [64], "heard": "6f9927d4-77ce-5dc3-ba70-f3b6dec653a7", "took_ms": 1840, "could_be": [], "by": "voice", "settled": "said-back", "sure": true, "operation": "add", "purpose": "practice", "activity": 0, "exercise": "sum", "hidden": "total", "way": null}',3199748434);
CREATE TABLE sheets (id TEXT PRIMARY KEY, pupil TEXT NOT NULL, at TEXT NOT NULL, fields TEXT NOT NULL, checksum INTEGER NOT NULL) STRICT;
CREATE TABLE targets (id TEXT PRIMARY KEY, pupil TEXT NOT NULL, at TEXT NOT NULL, fields TEXT NOT NULL, checksum INTEGER NOT NULL) STRICT;
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
CREATE TRIGGER targets_are_never_changed BEFORE UPDATE ON targets BEGIN SELECT raise(ABORT, 'targets are only added'); END;
CREATE TRIGGER targets_are_never_replaced BEFORE INSERT ON targets WHEN EXISTS (SELECT 1 FROM targets WHERE id = NEW.id) BEGIN SELECT raise(ABORT, 'targets are only added'); END;
CREATE TRIGGER targets_are_never_deleted BEFORE DELETE ON targets WHEN NOT EXISTS (SELECT 1 FROM erasing) BEGIN SELECT raise(ABORT, 'targets are only added'); END;
CREATE TRIGGER plans_are_never_changed BEFORE UPDATE ON plans BEGIN SELECT raise(ABORT, 'plans are only added'); END;
CREATE TRIGGER plans_are_never_replaced BEFORE INSERT ON plans WHEN EXISTS (SELECT 1 FROM plans WHERE id = NEW.id) BEGIN SELECT raise(ABORT, 'plans are only added'); END;
CREATE TRIGGER plans_are_never_deleted BEFORE DELETE ON plans WHEN NOT EXISTS (SELECT 1 FROM erasing) BEGIN SELECT raise(ABORT, 'plans are only added'); END;
CREATE TRIGGER offers_are_never_changed BEFORE UPDATE ON offers BEGIN SELECT raise(ABORT, 'offers are only added'); END;
CREATE TRIGGER offers_are_never_replaced BEFORE INSERT ON offers WHEN EXISTS (SELECT 1 FROM offers WHERE id = NEW.id) BEGIN SELECT raise(ABORT, 'offers are only added'); END;
CREATE TRIGGER offers_are_never_deleted BEFORE DELETE ON offers WHEN NOT EXISTS (SELECT 1 FROM erasing) BEGIN SELECT raise(ABORT, 'offers are only added'); END;
CREATE TRIGGER changes_are_never_changed BEFORE UPDATE ON changes BEGIN SELECT raise(ABORT, 'changes are only added'); END;
CREATE TRIGGER changes_are_never_replaced BEFORE INSERT ON changes WHEN EXISTS (SELECT 1 FROM changes WHERE id = NEW.id) BEGIN SELECT raise(ABORT, 'changes are only added'); END;
CREATE TRIGGER changes_are_never_deleted BEFORE DELETE ON changes WHEN NOT EXISTS (SELECT 1 FROM erasing) BEGIN SELECT raise(ABORT, 'changes are only added'); END;
CREATE TRIGGER sheets_are_never_changed BEFORE UPDATE ON sheets BEGIN SELECT raise(ABORT, 'sheets are only added'); END;
CREATE TRIGGER sheets_are_never_replaced BEFORE INSERT ON sheets WHEN EXISTS (SELECT 1 FROM sheets WHERE id = NEW.id) BEGIN SELECT raise(ABORT, 'sheets are only added'); END;
CREATE TRIGGER sheets_are_never_deleted BEFORE DELETE ON sheets WHEN NOT EXISTS (SELECT 1 FROM erasing) BEGIN SELECT raise(ABORT, 'sheets are only added'); END;
CREATE TRIGGER moves_are_never_changed BEFORE UPDATE ON moves BEGIN SELECT raise(ABORT, 'moves are only added'); END;
CREATE TRIGGER moves_are_never_replaced BEFORE INSERT ON moves WHEN EXISTS (SELECT 1 FROM moves WHERE id = NEW.id) BEGIN SELECT raise(ABORT, 'moves are only added'); END;
CREATE TRIGGER moves_are_never_deleted BEFORE DELETE ON moves WHEN NOT EXISTS (SELECT 1 FROM erasing) BEGIN SELECT raise(ABORT, 'moves are only added'); END;
PRAGMA application_id = 1398887507;
PRAGMA user_version = 10;
COMMIT;
