/*
 * The language of amended clearances: what a controller says when the route changes.
 *
 * How to read this file: each rule is a name, a colon, and the words in their order. (a | b) is a choice, ? may be left
 * out, * may be repeated or left out, + once or more. Words in CAPITALS are listed in the second half. Case does not
 * matter, hyphens are blanks, commas may be left out nearly everywhere.
 *
 * Sources: FAA Order JO 7110.65 (paragraph beside each rule), ICAO Doc 4444 chapter 12, Aeronautical Information Manual
 * 4-2 (numbers). What a number, a name or an airway means is not decided here but on the chart.
 */
grammar ClearanceLanguage;

options { caseInsensitive = true; }

// A name of several words that the chart shows, joined to one before the rules see it.
tokens { NAME }

// Several instructions in a row, with the callsign in front or not.
clearance : (callsign COMMA*)? link* instruction (link* instruction)* STOP* EOF ;

link : COMMA | STOP | THEN | AND ;

// Up to three words, then a number or letters and figures: Oceanic 512, N123AB, november one two three alfa bravo.
callsign : callsignWord? callsignWord? callsignWord? (ALNUM | figure) tail? tail? tail? tail? tail? tail? ;

callsignWord : WORD | LETTER | NAME ;

tail : ALNUM | LETTER | figure ;

instruction
    : heading | turnBy | presentHeading | runwayHeading
    | intercept | arc | vectorTo | join | depart
    | direct | clearedTo | onward | change
    | level | speed | cross | hold | report | expect | cancel
    | begin
    ;

// ---- Vectors: 7110.65 5-6-2; Doc 4444 12.4.1 ----

// FLY HEADING 100; TURN LEFT HEADING 090; TURN RIGHT, FLY HEADING 190; CONTINUE HEADING 100; STOP TURN HEADING 345
heading
    : (TURN? side haste? COMMA?)? (FLY | CONTINUE | MAINTAIN | TO)? HEADING degrees haste? reason?
    | HALT TURN COMMA? (FLY | CONTINUE)? HEADING degrees reason?
    ;

// TURN 20 DEGREES LEFT; TURN LEFT 20 DEGREES
turnBy : TURN number DEGREES side haste? reason? | TURN side haste? number DEGREES reason? ;

presentHeading : (FLY | CONTINUE | MAINTAIN) YOUR? PRESENT HEADING reason? ;

runwayHeading : (FLY | CONTINUE | MAINTAIN) RUNWAY HEADING reason? ;

// FOR SPACING; VECTORS FOR SEQUENCING: why, nothing to fly
reason : COMMA? VECTOR? FOR (REASON | AND)+ ;

haste : HASTE ;

side : LEFT | RIGHT ;

// INTERCEPT VICTOR THIRTY-ONE; VECTORS TO INTERCEPT THE AAA 250 RADIAL; JOIN or VIA THE AAA 250 RADIAL (4-4-1, 5-6-2)
intercept
    : toIntercept airway along
    | (toIntercept | JOIN | (CLEARED | PROCEED | REROUTED)? VIA) (radial | bearing) lineUntil?
    | FOLLOW (radial | bearing) lineUntil?
    ;

// UNTIL THE AAA 040 RADIAL; UNTIL 25 DME; UNTIL CROSSING THE AAA 040 RADIAL
lineUntil : COMMA? UNTIL CROSS? lineEnd ;

lineEnd
    : THE? place? number RADIAL (OF THE? place)?
    | THE? number MILE? DME ((FROM | OF) THE? place)?
    | number MILE (FROM | OF) THE? place
    | THE? place number MILE? DME
    | AIRWAY_IDENT
    | THE? place
    ;

// INTERCEPT THE AAA 15 MILE ARC, ARC NORTHWEST BOUND TO THE AAA 070 RADIAL; VIA 15 MILE ARC SOUTH OF AAA (4-4-1)
arc : (arcLead THE? | (FLY | FOLLOW | MAINTAIN)? THE) arcBody ;

arcBody : arcName (COMMA? arcWay)* (COMMA? ARC? (TO | UNTIL) CROSS? lineEnd)? ;

arcLead : toIntercept | JOIN | (CLEARED | PROCEED | REROUTED | CONTINUE)? VIA ;

arcName
    : place number MILE? DME? ARC
    | place DME number MILE? ARC
    | number MILE? DME? ARC compass? (OF | FROM | AROUND) THE? place
    | place ARC number MILE? DME?
    ;

arcWay : ARC? (CLOCKWISE | COUNTERCLOCKWISE | COMPASS_BOUND) ;

toIntercept : (FOR? VECTOR)? TO? INTERCEPT ;

// VECTOR TO VICTOR THIRTY-ONE, to a radial, or to a fix: the purpose of a vector (5-6-2)
vectorTo : (FOR | CLEARED? VIA)? VECTOR TO? THE? (airway | radial | bearing | place) | VECTOR FOR (REASON | AND)+ ;

// ---- Lines: 7110.65 4-4-1 ----

// THE AAA 250 RADIAL INBOUND; THE 250 RADIAL OF AAA; THE AAA 070 COURSE INBOUND
radial
    : THE? place number (RADIAL | COURSE | BEARING) sense?
    | THE? place RADIAL number sense?
    | THE? number RADIAL (OF | FROM) THE? place sense?
    | THE? RADIAL number (OF | FROM) THE? place sense?
    ;

// THE 250 BEARING FROM AAA; THE 070 COURSE TO AAA
bearing : THE? number (BEARING | COURSE) (TO | FROM) THE? place ;

sense : (COMMA? TRACK)? (INBOUND | OUTBOUND) ;

// VICTOR THIRTY-ONE, V31, V-31, J FIVE THIRTY-THREE, UB10 (2-5-1; group form AIM 4-2-8)
airway : THE? AIRWAY? UPPER? (AIRWAY_IDENT | ALNUM | LETTER+ number) ;

// ---- Route: 7110.65 4-2-5, 4-4-1 ----

// JOIN V31; JOIN V31 AT ABCDE; VIA V31 TO BBB; CLEARED VIA V31 BBB; and, later in a route, V31 BBB
join : (((CLEARED | PROCEED | REROUTED | REJOIN)? VIA) | ((FOR? VECTOR)? TO? (JOIN | REJOIN)) | FOLLOW)? airway along ;

along : (AT THE? place | AT? awayFrom)? (TO THE? place | namedPlace)? ;

// TEN MILES NORTH OF AAA
awayFrom : number MILE compass (OF | FROM) THE? place ;

compass : COMPASS ;

// WHEN ABLE, PROCEED DIRECT BBB; TURN LEFT DIRECT BBB; PRESENT POSITION DIRECT; PROCEED TO BBB (4-2-5 a3, 4-4-1 i)
direct
    : (WHEN ABLE COMMA?)? (TURN? side haste? COMMA?)? (CLEARED | PROCEED | FLY)? (FROM? PRESENT POSITION COMMA?)?
      (CLEARED | PROCEED | FLY)? DIRECT TO? THE? (radialFix | place | DESTINATION) (WHEN ABLE)?
    | (WHEN ABLE COMMA?)? (TURN? side COMMA?)? PROCEED TO THE? (radialFix | place) (WHEN ABLE)?
    ;

// DEPART BBB HEADING 120; DEPART AAA ON THE 078 RADIAL (7110.65 5-6-2, 4-4-1)
depart : DEPART THE? place COMMA? ((FLY | ON)? HEADING degrees | (ON | VIA)? THE? number RADIAL) reason? ;

radialFix : place number RADIAL number MILE? FIX ;

// CLEARED TO XBBB AIRPORT (4-2-1, 4-3-3)
clearedTo : CLEARED TO THE? place ;

// THEN AS FILED (4-3-3); RESUME OWN NAVIGATION (5-6-2); REST OF ROUTE UNCHANGED (4-2-5 a2); ON COURSE
onward
    : (CLEARED | CONTINUE | PROCEED)? AS FILED
    | (CLEARED? VIA)? FLIGHT PLANNED ROUTE
    | (RESUME | REJOIN | CONTINUE) (YOUR? FLIGHT PLANNED | FILED) ROUTE
    | RESUME YOUR? OWN? NAVIGATION
    | REST OF THE? (ROUTE | CLEARANCE) UNCHANGED
    | (CLEARED | PROCEED)? ON COURSE
    ;

// CHANGE VICTOR FORTY-ONE AAA TO READ VICTOR FORTY-ONE CCC, VICTOR SEVENTY-ONE AAA (4-2-5 a1)
change : CHANGE oldLeg (COMMA? oldLeg)* COMMA? TO READ (join | direct) (COMMA? (join | direct))* ;

oldLeg : VIA? airway (TO? place)? | DIRECT TO? place ;

// DISREGARD; DISREGARD THE AMENDMENT; CANCEL AMENDED CLEARANCE (P/CG "disregard"; Doc 4444 12.3.1.1, from memory)
cancel : (CANCEL | DISREGARD) (THE? LAST? (AMENDED? CLEARANCE | AMENDMENT))? ;

// ---- Altitudes: 7110.65 4-5-7 ----

// CLIMB AND MAINTAIN SIX THOUSAND; MAINTAIN FL190 UNTIL ESTABLISHED ON THE AIRWAY
level
    : (AMEND YOUR? ALTITUDE COMMA?)? (begin COMMA?)? levelVerb altitude (begin | COMMA? until | COMMA? levelBy)* haste?
    ;

levelVerb : (CLIMB | DESCEND) haste? begin? COMMA? (TO REACH | REACH | TO? AND? MAINTAIN?) | HASTE? MAINTAIN ;

// AT PILOT'S DISCRETION; WHEN READY
begin : AT? PILOTS DISCRETION | WHEN READY ;

until : UNTIL ESTABLISHED (ON (THE (AIRWAY | RADIAL | COURSE | ARC) | airway | radial))? ;

// TO BE LEVEL BY BBB; TO REACH BY BBB
levelBy : (TO BE | TO)? (LEVEL | REACH)? (BY | AT) THE? place ;

altitude
    : (FLIGHT LEVEL | FL) number
    | FL_NUMBER
    | NUMBER_FT
    | number FEET?
    ;

// CROSS ABCDE AT 6000; AT OR ABOVE 6000; AT 6000 OR ABOVE; AT AND MAINTAIN 6000
cross
    : CROSS THE? (awayFrom | place) AT? (bound | AND MAINTAIN)? altitude bound? (AND MAINTAIN)?
    | CROSS THE? (awayFrom | place) BETWEEN altitude AND altitude
    ;

bound : OR (ABOVE | BELOW) ;

// ---- Speeds: 7110.65 5-7-2, 5-7-4 ----

// MAINTAIN 180 KNOTS (OR GREATER); REDUCE SPEED TO 140; MAINTAIN PRESENT SPEED; DO NOT EXCEED 150 KNOTS
speed
    : MAINTAIN number KNOTS speedBound?
    | MAINTAIN? SPEED number KNOTS? speedBound?
    | (REDUCE | INCREASE) (SPEED TO? | TO) number KNOTS? speedBound?
    | DO NOT EXCEED number KNOTS
    | MAINTAIN PRESENT SPEED
    | RESUME NORMAL SPEED
    ;

speedBound : OR (GREATER | LESS) ;

// ---- Holding: 7110.65 4-6-4 ----

// HOLD WEST OF AAA ON THE 270 RADIAL, 1 MINUTE LEGS, LEFT TURNS, EXPECT FURTHER CLEARANCE 1530
hold
    : HOLD COMMA? (compass ((OF | AT) THE? place)? | (OF | AT | OVER)? THE? place)?
      (COMMA? (holdOn | holdPart))*
    ;

holdOn
    : ON THE? place number (RADIAL | COURSE | BEARING | TRACK)
    | ON THE? number (RADIAL | COURSE | BEARING | TRACK) ((OF | FROM | TO) THE? place)? sense?
    | ON airway
    | (ON THE?)? INBOUND (TRACK | COURSE) number DEGREES?
    ;

holdPart
    : length (MINUTE | MILE) DME? LEG?
    | OUTBOUND TIME length MINUTE
    | side (HAND? (TURNS | PATTERN) | TURN)
    | STANDARD (TURNS | PATTERN)?
    | AS PUBLISHED
    | ((EXPECT (FURTHER | APPROACH) CLEARANCE) | EFC) (AT | TIME)* number
    ;

length : number | DECIMAL | number AND LETTER HALF ;

// REPORT ESTABLISHED ON THE ARC; REPORT PASSING BBB: to be said, nothing to fly
report : REPORT (CROSS | DEPART | HEADING | SPEED | WHEN)? expectWord* ;

// ---- Advance information: 7110.65 4-2-5, 5-6-2 ----

// EXPECT VICTOR EIGHTY-EIGHT AFTER BBB: kept in the words as said
expect : EXPECT (HOLD | AS FILED)? expectWord+ | EXPECT (HOLD | AS FILED) ;

// Any words but those that begin the next instruction, so that none of those is swallowed.
expectWord
    : ~( COMMA | STOP | THEN | FLY | TURN | CLIMB | DESCEND | MAINTAIN | RESUME | CROSS | REST | CHANGE | CANCEL
       | DISREGARD | REDUCE | INCREASE | SPEED | EXPECT | CLEARED | PROCEED | INTERCEPT | JOIN | HOLD | AS | WHEN | HEADING
       | AMEND | DEPART | REPORT | REROUTED | REJOIN | HALT | NOT_OURS | STRANGE )
    | TO (INTERCEPT | JOIN | HOLD)
    ;

// ---- Names and numbers ----

// By ident, spelled in letters, or by the spoken name; 46N078W and AAA078064 as in a flight plan
place : namedPlace | ALNUM facility? ;

namedPlace : nameWord+ facility? ;

nameWord : WORD | LETTER | NAME ;

facility : AIRPORT | VOR | NDB | FIX ;

degrees : number DEGREES? ;

// Digit by digit or in groups: 250, two five zero, two fifty, one two thousand five hundred (AIM 4-2-8 to 4-2-10)
number : figure+ ;

figure : NUMBER | DIGIT | TEEN | TENS | HUNDRED | THOUSAND ;

// ---- Readback: shorter than an instruction, the callsign in front or behind (AIM 4-4-7) ----

readback
    : (callsign COMMA*)? link* readbackItem (link* readbackItem | link+ bareItem)* (COMMA* callsign)? STOP* EOF
    | (callsign COMMA*)? link* bareItem (link* readbackItem | link+ bareItem)* (COMMA* callsign)? STOP* EOF
    ;

readbackItem : instruction | radial | bearing | looseRadial | arcBody ;

// Begins with a number, so a comma must part it from a number before it.
bareItem : altitude | bareRadial | looseRadial ;

// The station left out, or said behind: INTERCEPT THE 250 RADIAL; INTERCEPT 066 RADIAL AAA
bareRadial : (toIntercept | JOIN)? THE? number RADIAL sense? place? ;

// The word radial left out: INTERCEPT THE AAA 250
looseRadial : toIntercept THE? place number ;

// A callsign alone, the last part of a readback
callsignAlone : callsign STOP* EOF ;

// ---- Words ----

ABLE : 'able' ;
ABOVE : 'above' | 'higher' ;
AIRPORT : 'airport' | 'aerodrome' ;
AIRWAY : 'airway' ;
ALTITUDE : 'altitude' ;
AMEND : 'amend' ;
AMENDED : 'amended' ;
AMENDMENT : 'amendment' ;
AND : 'and' ;
APPROACH : 'approach' ;
ARC : 'arc' | 'arcing' ;
AROUND : 'around' ;
AS : 'as' ;
AT : 'at' ;
BE : 'be' ;
BEARING : 'bearing' ;
BELOW : 'below' | 'lower' ;
BETWEEN : 'between' ;
BY : 'by' ;
CANCEL : 'cancel' ;
CHANGE : 'change' ;
CLEARANCE : 'clearance' ;
CLEARED : 'cleared' | 'recleared' | 're-cleared' ;
CLIMB : 'climb' | 'climbing' ;
CLOCKWISE : 'clockwise' ;
COMPASS : DIRECTION ;
COMPASS_BOUND : DIRECTION [ -]* 'bound' ;
CONTINUE : 'continue' ;
COUNTERCLOCKWISE : ('counter' | 'anti') [ -]? 'clockwise' ;
COURSE : 'course' ;
CROSS : 'cross' | 'crossing' ;
DEGREES : 'degrees' | 'degree' ;
DEPART : 'depart' | 'departing' | 'leave' | 'leaving' ;
DESCEND : 'descend' | 'descending' ;
DESTINATION : 'destination' ;
DIRECT : 'direct' ;
DISCRETION : 'discretion' ;
DISREGARD : 'disregard' ;
DO : 'do' ;
DME : 'dme' ;
EFC : 'efc' ;
ESTABLISHED : 'established' ;
EXCEED : 'exceed' ;
EXPECT : 'expect' ;
FEET : 'feet' | 'ft' ;
FILED : 'filed' ;
FIX : 'fix' | 'intersection' | 'waypoint' ;
FL : 'fl' ;
FLIGHT : 'flight' ;
FLY : 'fly' | 'flying' ;
FOLLOW : 'follow' | 'track' [ ]+ 'along' ;
FOR : 'for' ;
FROM : 'from' ;
FURTHER : 'further' ;
GREATER : 'greater' ;
HALF : 'half' ;
HALT : 'stop' ;
HAND : 'hand' ;
HASTE : 'immediately' | 'now' | 'expedite' | 'expeditiously' | 'without' [ ]+ 'delay' | 'no' [ ]+ 'delay' ;
HEADING : 'heading' ;
HOLD : 'hold' | 'holding' ;
INBOUND : 'inbound' ;
INCREASE : 'increase' | 'increasing' ;
INTERCEPT : 'intercept' | 'intercepting' ;
JOIN : 'join' | 'joining' ;
KNOTS : 'knots' | 'knot' ;
LAST : 'last' | 'previous' ;
LEFT : 'left' ;
LEG : 'leg' | 'legs' ;
LESS : 'less' ;
LEVEL : 'level' ;
MAINTAIN : 'maintain' | 'maintaining' ;
MILE : 'mile' | 'miles' ;
MINUTE : 'minute' | 'minutes' ;
NAVIGATION : 'navigation' ;
NDB : 'ndb' ;
NORMAL : 'normal' ;
NOT : 'not' ;
OF : 'of' ;
ON : 'on' ;
OR : 'or' ;
OUTBOUND : 'outbound' ;
OVER : 'over' ;
OWN : 'own' ;
PATTERN : 'pattern' ;
PILOTS : 'pilot' ['\u2019]? 's'? | 'pilots' ['\u2019] ;
PLANNED : 'planned' | 'plan' ;
POSITION : 'position' ;
PRESENT : 'present' ;
PROCEED : 'proceed' ;
PUBLISHED : 'published' | 'charted' | 'depicted' ;
RADIAL : 'radial' | 'azimuth' ;
REACH : 'reach' | 'reaching' ;
READ : 'read' ;
READY : 'ready' ;
REASON : 'spacing' | 'traffic' | 'sequencing' | 'sequence' | 'separation' | 'weather' | 'delay' | 'delaying' | 'identification' | 'avoidance' ;
REDUCE : 'reduce' | 'reducing' ;
REJOIN : 'rejoin' ;
REPORT : 'report' ;
REROUTED : 'rerouted' | 're-routed' | 'reroute' ;
REST : 'rest' | 'remainder' | 'balance' ;
RESUME : 'resume' ;
RIGHT : 'right' ;
ROUTE : 'route' ;
RUNWAY : 'runway' ;
SPEED : 'speed' ;
STANDARD : 'standard' ;
THE : 'the' ;
THEN : 'then' ;
TIME : 'time' ;
TO : 'to' ;
TRACK : 'track' ;
TURN : 'turn' | 'turning' ;
TURNS : 'turns' ;
UNCHANGED : 'unchanged' ;
UNTIL : 'until' ;
UPPER : 'upper' ;
VECTOR : ('radar' [ ]+)? ('vector' | 'vectors') ;
VIA : 'via' ;
VOR : 'vor' | 'vortac' ;
WHEN : 'when' ;
YOUR : 'your' ;

// Words of the trade that are no part of an amended clearance here; they never pass for a name or a callsign.
NOT_OURS
    : 'squawk' | 'squawking' | 'contact' | 'monitor' | 'altimeter'
    | 'ident' | 'advise' | 'say' | 'verify' | 'recycle' | 'transponder' | 'tune'
    | 'reset' | 'slow' | 'accelerate' | 'caution' | 'radar' | 'offset' | 'land' | 'takeoff'
    ;

fragment DIRECTION : ('north' | 'south') ([ -]? ('east' | 'west'))? | 'east' | 'west' ;

// Digits (AIM 4-2-7; Doc 4444 and Annex 10 pronunciations with them)
DIGIT
    : 'zero' | 'oh' | 'one' | 'wun' | 'two' | 'too' | 'three' | 'tree' | 'four' | 'fower' | 'five' | 'fife' | 'six'
    | 'seven' | 'eight' | 'ait' | 'nine' | 'niner'
    ;
TEEN
    : 'ten' | 'eleven' | 'twelve' | 'thirteen' | 'fourteen' | 'fifteen' | 'sixteen' | 'seventeen' | 'eighteen'
    | 'nineteen'
    ;
TENS : 'twenty' | 'thirty' | 'forty' | 'fifty' | 'sixty' | 'seventy' | 'eighty' | 'ninety' ;
HUNDRED : 'hundred' ;
THOUSAND : 'thousand' | 'tousand' ;

// Letters (AIM 4-2-7), spoken or typed singly
LETTER
    : [a-z] | 'alfa' | 'alpha' | 'bravo' | 'charlie' | 'delta' | 'echo' | 'foxtrot' | 'golf' | 'hotel' | 'india'
    | 'juliett' | 'juliet' | 'kilo' | 'lima' | 'mike' | 'november' | 'oscar' | 'papa' | 'quebec' | 'romeo' | 'sierra'
    | 'tango' | 'uniform' | 'victor' | 'whiskey' | 'whisky' | 'xray' | 'x-ray' | 'yankee' | 'zulu'
    ;

DECIMAL : [0-9]+ '.' [0-9]+ ;
NUMBER : [0-9]+ | [0-9] [0-9]? ',' [0-9] [0-9] [0-9] ;
NUMBER_FT : ([0-9]+ | [0-9] [0-9]? ',' [0-9] [0-9] [0-9]) 'ft' ;
FL_NUMBER : 'fl' '-'? [0-9]+ ;
AIRWAY_IDENT : [vjtq] '-'? [0-9]+ ;
WORD : [\p{L}]+ ;
ALNUM : [\p{L}0-9]+ ;

COMMA : ',' | ';' ;
STOP : '.' ;
BLANK : [ \t\r\n\u00A0\-\u2010\u2011]+ -> skip ;
STRANGE : . ;
