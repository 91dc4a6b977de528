"""What children wish for in whole sentences, and the ways in which each wish is said, in the notation of `patterns`.

The first wish that fits a sentence is the one that is meant, so the order says which of two is meant more:
what an adult has to know comes before all else, not to stop before to stop.
"""

from saythesum.core.meanings import Command
from saythesum.wording.understand.number_parser import SMALL, UNITS

SETS = {
    "number": " ".join((*SMALL, *UNITS)),
    "i": "i we us me",
    "say": "say tell read repeat ask play give hear have get listen",
    "one": "one ones sum number problem it",
    "aux": "can may would let want need have going like",
    "tail": "this that it there here today any more for all me us my yet and sum one ones early if is alright i "
    "we do maths some these work go home back in am can at with up the a long doing please working "
    "playing of day have to",
    "body": "tummy belly stomach head ear ears eye eyes throat tooth teeth finger fingers hand hands arm arms leg "
    "legs foot feet knee knees back nose neck mouth bum toe toes chest thumb elbow wrist lip tongue",
    "hurts": "hurt hurts hurting sore aches ache aching bleeding bleeds poorly itchy itches itching stings "
    "stinging burning killing throbbing wobbly",
    "ill": "ill unwell poorly dizzy faint shaky hot feverish weird scared frightened upset crying bleeding "
    "worried sad lonely bursting afraid thirsty hungry cold wobbly hurt funny awful horrible",
    "kit": "headphones headphone headset earphones earbuds screen keyboard mouse microphone mic laptop computer "
    "tablet ipad speaker speakers volume sound keys key button buttons aid aids glasses cable wire plug "
    "charger battery spacebar lights",
    "broken": "broken broke stuck stopped dead black blank frozen froze fell fallen snapped unplugged flat loose "
    "crackling buzzing whistling beeping hurting off out died cracked wet sticky dark fuzzy jammed gone "
    "not wont doesnt isnt hasnt havent arent dont",
    "hit": "hit kicked pushed pinched punched slapped tripped scratched bullying hitting kicking pushing "
    "pinching hurting",
    "adult": "teacher adult grownup someone somebody nurse mr mrs ms miss mum mummy mam mammy dad daddy nan granny "
    "helper assistant lady",
}


def _ways(text: str) -> tuple[str, ...]:
    """Semicolons stand between them."""
    return tuple(way.strip() for way in text.split(";"))


WISHES: tuple[tuple[Command, tuple[str, ...]], ...] = (
    (
        Command.NEEDS_ADULT,
        _ways("""
        pain/pains; my <body> is/are/feels/has/keeps/went/gone; see/get/call/fetch/find my <adult>;
        feel/feeling/felt .. sick; i am .. sick $;
        <kit>/computers/laptops gone; took/taken/stole/nicked/take my;
        <kit> .. .. funny/weird/bad/crackly; cant hear .. <kit>; hear .. .. in my <kit>; legs/eyes/arms/ears gone;
        emergency/swollen/runny/numb; cant find my; not feeling well/good/great; feeling sick;
        dont/not/doesnt feel/feeling well/good/right/okay; am not well;
        <kit> .. .. crackly/sore/quiet/blurry/funny/wrong/weird/running; need/want/miss my <adult>;
        tissue/hanky; nose .. running; something in my; in my eye; too hot/cold/bright/dark;
        need/want/have .. <ill>; braille; cant see .. anything/screen $; cant see $; <kit> .. .. crackling;
        hospital; i am not .. ok/alright; nobody likes; get a <adult>; help .. <body>; hearing/listening aid;
        i fell; fallen over; fell over; hands .. cold;
        toilet/toilets/loo/potty/washroom/bathroom/restroom/lavatory/jacks;
        need/have/want/going .. wee/pee/poo/poop $; need to go $; i am/was bursting; <body> .. <hurts>;
        sore <body>; headache/tummyache/earache/toothache/nosebleed/stomachache/bellyache;
        hurt/cut/banged/bumped/burnt/trapped/scratched my/myself; it/that hurts/stings;
        feel/feeling/felt .. <ill>; i am <ill>; i am being sick; i am going to .. be/get sick; been/was sick;
        throw/throwing/threw up; vomit/vomited/puke/blood/bleeding/cry/crying;
        inhaler/medicine/plaster/insulin/asthma/epipen/tablets/breathe/bandage/allergic;
        want/need/miss my <adult>; get/call/fetch/find/ask/want/need/tell <adult>;
        need/want/get/fetch .. a/an/the <adult>; where is my? <adult>; get/have/need/want .. drink/water;
        hearing aid/aids; <kit> .. .. <broken>; come/came/fell/fallen/falling off; no sound;
        broke/broken/dropped/lost .. <kit>; spilled/spilt/spilling; cant/dont see the screen;
        cant/dont find .. <kit>; <hit> me; is/are/being mean/horrible/nasty to me; fire alarm; wet myself/me
        """),
    ),
    (
        Command.HUSH,
        _ways("""
        you are .. noisy/loud/chatty; less talking;
        too loud; give it a rest; stop saying; no talking; too chatty; pipe down;
        cant think .. noise/talking/you; ^ ... shush/shh/shhh/sh/hush/whisht/wheesht/silence; be/keep/go quiet;
        ^ quiet; stop/quit/not/dont/no .. talk/talking/speaking/chatting; talk/talking/chat too much;
        shut up/it; dont say anything
        """),
    ),
    (
        Command.NOT_WHAT_I_SAID,
        _ways("""
        not mine; not correct; isnt right $; take back what; that is not mine; picked up; wasnt for you; ignore me;
        that/it was my/the/a <adult>/friend/brother/sister/dog/boy/girl; somebody/someone/else else? said;
        not listening to/properly; isnt listening; pressed/hit/typed/pushed the? wrong; wrong key/button;
        by accident/mistake; was a mistake; not what; said something; said it wrong;
        doesnt/cant .. hear/understand me; mean/meant to say; stop .. hearing;
        didnt/never/havent/wouldnt say/said/mean/answer/press/type;
        not/isnt/wasnt what .. i .. said/meant/mean/say/answered/wanted; was/is not me; wasnt/isnt me;
        ^ .. not me $; not/wasnt/isnt talking/speaking to you/it/the;
        heard/hearing/hears/hear/got me/it/that wrong $; you/it .. heard/got/hear/get/gets .. wrong;
        not/isnt/doesnt/didnt/dont hearing/hear/understand/understanding/get .. me .. properly/right/well;
        not/isnt/doesnt/didnt hearing/hear/understand/understanding me;
        misheard/mishearing/mishear/misunderstood; not/isnt/wasnt my/the/an/what .. answer; take/took .. back $;
        take that/it back; undo/cancel/scrap/delete; rub that/it out; forget/ignore that/what/it .. $;
        i was only? coughing/sneezing/counting/laughing/yawning/talking/humming/singing/burping/reading/breathing;
        i was only .. $; think/thinks/thought i said; said/meant something else/different;
        the wrong number/answer; my words wrong; not what i told/telled;
        was .. <adult>/friend/brother/sister/else/him/her who/that/talking/said/speaking/saying;
        was .. <adult>/friend/brother/sister/else/him/her not me; why .. say i said
        """),
    ),
    (
        Command.SLOWER,
        _ways("""
        gabbling; speed; fast $; quick $;
        so quick/fast; talk/go/speak/talking/going/say .. quick/fast; too .. fast/quick; rushing .. words;
        one word at a time; ^ ... slower/slowly; slow down;
        too/so/very/that/talks/talk/talking/going fast/quick/quickly/fastly; ^ too/not? fast/quick/speedy;
        speedy; fast/quick for me; keep up with; say/speak/talk/read/go .. slow
        """),
    ),
    (
        Command.GO_ON,
        _ways("""
        ^ go $; ^ more $; can/want/i .. do more $; ^ .. go on $;
        ^ let us .. next/more/another/start/begin/go/do/keep; ^ .. again let us go; ready .. now/next/go $;
        bring it on; start the; dont want to stop/finish; not finished yet; keep/carry going/on;
        ^ .. i am ready; ^ .. i am back; ^ right? ready; ^ right? go on; ^ continue;
        can/let/lets we/us/i continue/start/begin/keep/carry; let us go; go ahead;
        do/have/give/want .. another/more/next <one> $; ^ .. next <one>? .. $; ^ another <one>? $;
        ^ .. i have .. my .. counters/cubes/pencil/beads/blocks; resume/unpause
        """),
    ),
    (
        Command.HOW_MANY_MORE,
        _ways("""
        is that/it/this .. everything/all $; any more after; long to go;
        how much longer; take .. long; what is left; all of them done; how .. till the end; is that all/it;
        how many to go; many left; how many/much .. .. left/more/remaining/till/still/go;
        how many sum/there/do/are; is/are there .. more/left;
        are/am/is we/i/it/that .. nearly/almost/near .. done/finished/there/over/end;
        are/am we/i .. done/finished yet; is it finished/over .. $;
        have/do i/we .. many/lots/loads/much .. left/more/do; how long/far .. left/till/more/go/is/does/to;
        when .. finish/finished/over/end/done/stop; what is left to do
        """),
    ),
    (
        Command.WHERE_AM_I,
        _ways("""
        how far .. through/along; am i in; row/column am i; which one is it; what one;
        where i am; where we are; which .. on $; how far; where am i; where are we; where have/did/were .. i/we;
        which/what .. <one>/row/place .. am/are i/we; which/what .. <one> is this;
        which/what .. <one>/row .. up to; lost my/the place; is this/that/it .. the .. last/first;
        are/am i/we .. halfway/half; how far/many .. have/did/am/are .. done/do/got/along/through/i; am i on
        """),
    ),
    (
        Command.READ_ROW,
        _ways("""
        read/what/hear/tell/say .. .. .. row; whole/entire row; row to me; the way across;
        read/hear .. .. across; going across; line along/across
        """),
    ),
    (
        Command.READ_COLUMN,
        _ways("""
        read/what/hear/tell/say .. .. .. column; whole/entire column; read/what/hear .. .. down/downwards
        """),
    ),
    (
        Command.WAIT,
        _ways("""
        bear with; working on it; bit longer; give me .. bit; let me $; by myself; on my own; longer $;
        ^ not yet $; hold your; stop rushing/hurrying; rushing/hurrying me; havent finished/done yet;
        getting my fingers; bear with; ^ .. patient; in a minute/second $; i am on it; give/need .. .. time;
        almost/nearly $; let me .. go/look/have; ^ .. trying $; need/want my fingers; ^ .. wait/waiting $;
        ^ .. hang/hold on/up; ^ .. wait a/one/two/till/while/there/i/let/am/for? minute/second/till/bit/i/me? $;
        ^ .. wait till/while/i/let/a/one; ^ ... a/one/two/half/another/little/my .. minute/second $;
        ^ .. a/one/two/half/another/little/my .. minute/second; ^ .. pause; can you pause;
        give/let/need/want/have <i>/a/more/some/to .. minute/second/time/think/longer/break/rest/count/check/work;
        need/want .. time/longer; let me .. work/think/count/finish/try/see/do/figure/check/concentrate/get;
        ^ ... i am .. thinking/working/counting/trying/doing/figuring/concentrating;
        not ready/done/finished yet; am not ready; dont tell/help/rush/hurry me; dont tell/say/give the/it;
        i/have nearly/almost .. know/got/have/there/knew/had/worked/remember/it;
        ^ .. nearly/almost got/there/have; take a break/rest; back in a; right back; dropped my;
        count .. on my fingers/hands; get my .. counters/cubes/fingers/pencil/tissue/beads/blocks; take my time
        """),
    ),
    (
        Command.SKIP,
        _ways("""
        to another/a one; to another; jump this; not bothered; a new one; other sum;
        next .. dont want; to the next one/sum; ^ .. rather not do; dont like this one; do a different;
        ^ ... skip; miss/leave/jump/missing this/it/that/one .. out; leave/miss/pass this/that <one>; leave it;
        ^ pass .. $; can/i/want/will/lets i/to/we/us? pass; different/other one/sum/number; another one instead;
        go/move .. to the next; dont/not want/like/do/doing .. this/that one/sum; ^ not this/that one;
        do .. one/it/this/that .. later/after; come back to this/it/that
        """),
    ),
    (
        Command.GO_BACK,
        _ways("""
        earlier one/sum; the one i/we .. had/got; return to;
        take me back; go .. back one; the last .. one .. again; wrong last time; get .. wrong .. again;
        go/went/take/get .. back $; go/get/take .. back .. to; ^ .. back .. one; ^ back $; previous;
        the .. one/sum before; one/sum .. we/i did/done; redo; change my/the/last .. answer/one;
        last/other one/sum .. again/change/over; change it $; have another/a go/try/shot;
        do/try .. last/before .. again/over; fix .. last/one
        """),
    ),
    (
        Command.STOP,
        _ways("""
        something/anything different/else; i am off; that is all/it/me $; that is all for; excused;
        over it $; not in the mood; had my fill; my lot $; go to .. lunch/break/dinner/assembly;
        have my .. break/lunch/snack;
        let me go; if i/we stop <tail>*; can/could/may/want/need/let .. .. .. stop after <tail>* $;
        i have to go; need/have .. go to .. next/lesson/class/assembly/dinner; call it a day;
        go on something else; <adult> .. is/says/here .. go/finish/stop/come; rather stop/not; over now? $;
        no more <one>; hometime/playtime; ^ stop <tail>* $;
        ^ ... <aux> .. .. stop/finish/quit/leave/end <tail>* $; <aux> .. .. be finished/done <tail>* $;
        be the last; not/dont/never want/wanna/doing/do/going .. any more;
        dont want .. do/it/this/play/go/carry <tail>* $; dont want <tail>* $; dont feel like; not doing .. more;
        ^ .. no more <tail>* $; i .. too? tired/sleepy/exhausted/knackered; enough $; enough of/for/today;
        had enough; fed up; bored/boring; sick of; tired; i have/am finished/done <tail>* $;
        i have/am all/nearly/completely? finished/done <tail>* $; ^ .. finished/done <tail>* bye? $;
        me .. done/finished; have to/want to/need to/should .. finish/stop/go <tail>* $;
        playtime/lunchtime/hometime/breaktime/bell/assembly/dinnertime;
        play/lunch/home/dinner/snack/story/bed time; time to go/stop/finish;
        time for .. lunch/break/play/home/bed; go/going home/outside/out/lunch/play;
        turn/switch it/this/that .. off; turn/switch off; something else; ^ ... do .. tomorrow/another;
        ^ .. tomorrow; another day; bye/goodbye/exit; see you; pack up/away/my; log off/out; last one $
        """),
    ),
    (
        Command.SAY_AGAIN,
        _ways("""
        what you said $; once again; what is that $; what does it say; lost the sum/number;
        read/tell me? it/that/them .. $;
        tell me the sum; say what; to me again; hear .. properly $;
        ^ eh $; remember/forget/forgotten .. sum/number/numbers; what add/plus/and; what do i add; sum again;
        tell me .. number/numbers/sum; ^ start again; didnt get that/it $; not get that; ^ .. excuse me $;
        give me the .. again; <number> .. what $; what is it .. again; <say> .. .. again/twice;
        go over it again; once/one more .. $; another time; repeat; come again; ^ .. pardon/huh $; ^ what $;
        what was/were; what did/does you/it/he/she/that .. say/said/ask/saying; what did you;
        what is/are .. the/my .. sum/number/numbers/one $; what number/numbers; what sum;
        what .. am/are/do i/we .. adding/add/meant/supposed; which .. number/numbers;
        <number> add/plus/and what; add/plus what; add how many; was/did it/that/you .. <number>; did you say;
        didnt/couldnt/cant/never/hardly/havent/wasnt/dont/barely hear/hearing/catch/listening/heard/listen/caught;
        not hearing it/you/that; didnt/dont get what/you/that $; missed it/that/what/the;
        forgot/forgetting/forgotten/forget .. .. sum/number/numbers/it/said/was/start; quiet/noisy $;
        too quiet/noisy; speak up; louder; not listening; last bit; say that/it $; ^ .. again $
        """),
    ),
    (
        Command.HELP,
        _ways("""
        easy one/ones/sum/number; struggling; over my head; makes no sense; what is .. thing/step;
        which number/one/bit/part do i;
        too long; walk me; talk me; tell me what; guide me; dont know .. how/what/where/which; cant manage; do big;
        teach me;
        supposed/meant to do; how am i; have/got to <number> .. what; many .. to get to; not clever/smart/good;
        nobody/noone can; brain hurt; what is next $; making my .. hurt; dont get ..; too many numbers;
        need you to; can .. do it for; what is .. answer; i will never; which way; what way; am .. useless;
        do .. easy; first step; what about the; get <number> .. next/then $; next step;
        hard/harder/hardest/difficult/tricky/tough/impossible/complicated; easier/simpler/smaller; an easy;
        little/small/smaller number/numbers/sum/ones; too/this/that/it big/much; way too; i/we/just cant do;
        i cant $; i .. cant $; rubbish/stupid/thick/dumb/useless/hopeless; bad/terrible/awful at;
        never .. get/do/learn/understand/manage/able;
        brain/head .. not/hurts/hurting/melting/sore/full/fried/exploding/tired; in/for my head;
        keep/always .. wrong; hate;
        havent/not/never/didnt .. learned/learnt/done/taught .. this/these/it/them/yet/one;
        only .. know/do/learned/learnt/count .. up/to; everyone/everybody else; give/giving up;
        dont/not/didnt .. get/getting it/this/that/these/how/what;
        dont/not/cant/doesnt/didnt .. understand/understanding/follow/sense;
        confused/confusing/muddled/stuck/mixed; am .. lost; help; clue/hint/tip/hints/clues;
        how do/does/would/can/to/did/you/am; know/forgotten/forgot/remember how; know what to do;
        what .. do/should/can/does/happens i/we/you/it/next .. do/next/first/mean/add/start;
        what comes/happens/is next/after/first; what next; show/teach/explain; tell me how/what; with me;
        in steps; step by step; break/split .. up/down/it; left over; a hand; do it together;
        where do/should i .. start/begin
        """),
    ),
    (
        Command.DONT_KNOW,
        _ways("""
        who knows; clueless; have .. answer; couldnt tell; got nothing; no answer;
        how should i; could be any/anything; not a clue; havent .. clue/idea; no idea;
        dont/didnt/never/not know/remember; used to know;
        no/not/havent/any .. idea/clue/notion/earthly/foggiest; not sure/certain; unsure;
        cant/dont/couldnt think/remember/figure/guess/tell/work; gone .. out/from .. head/mind/brain;
        mind/head/brain/am/is/gone .. blank/empty; blank; beats/search me; i forgot/forget/forgotten $;
        i have forgotten $
        """),
    ),
)

SURE = (
    (Command.HELP, _ways("dont know how/where to; dont know what to do")),
    (Command.HELP, _ways("which number/bit/part do i; first thing/step")),
    (Command.SAY_AGAIN, _ways("understand what you said; hear what you")),
    (Command.HUSH, _ways("you are .. noisy/loud")),
    (Command.STOP, _ways("sick/tired/bored of")),
    (Command.DONT_KNOW, _ways("no/not/havent/dont/any .. idea/clue/notion")),
    (Command.WAIT, _ways("nearly/almost done/finished thinking/counting/working")),
    (Command.WHERE_AM_I, _ways("what/which row/column is this; what/which row/column .. am/are")),
    (
        Command.DONT_KNOW,
        _ways("""
        ^ .. dont know $; how should i; no/not/havent .. idea/clue/notion; dont know what .. is $;
        dont know the answer
        """),
    ),
    (Command.WHERE_AM_I, _ways("where i am; where we are")),
    (Command.SAY_AGAIN, _ways("^ what do i add $; cant/dont remember .. sum/number/numbers")),
    (
        Command.HELP,
        _ways("""
        many .. to get to; how am i; no/not good/clever/smart at/enough; supposed/meant to do;
        brain .. hurt/hurts/hurting; what is next $; have/to <number> what $;
        havent/not .. done .. class/school/these; how .. do/does .. again; forgotten/forgot how; left over;
        add to get; dont get it $; brain/head .. not/isnt .. working
        """),
    ),
    (Command.GO_ON, _ways("dont want to stop; ^ .. done thinking")),
    (
        Command.GO_BACK,
        _ways("""
        take me back; back to the last/previous/one; have another go; the one before; know the last;
        one/sum we did; change it/my
        """),
    ),
    (Command.SAY_AGAIN, _ways("what .. supposed/meant to; too noisy/quiet")),
    (
        Command.WAIT,
        _ways("""
        havent/not finished/done .. yet; havent/not finished/done $; ^ not yet $
        """),
    ),
    (Command.STOP, _ways("go on something else; let me go $; too tired; not doing any more")),
    (Command.SKIP, _ways("next .. dont want; to the next one/sum; pass this/that one/sum")),
)
"""Where one of these is said, whatever else stands around it."""

TO_SOMEBODY_ELSE = (
    "^ yes/no/yeah miss/sir/maam",
    "he/she/they is/are",
    "poking/annoying/copying/touching/borrow/rubber/pencil .. me",
    "my birthday",
    "^ my sister/brother",
)
"""No wish, whatever else it may sound like."""
