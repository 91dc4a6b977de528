"""From blocks of sound to one meaning: where speech starts and ends, engines behind one port, one gate for all.

Nothing here knows which answer is expected, nor what the dialogue will do with what was heard.
"""
