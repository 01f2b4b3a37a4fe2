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
// HEARD: a word of what other traffic does, or of what is to be reported; no word of an instruction.
tokens { NAME, HEARD }

// Several instructions in a row, with the callsign in front or not.
clearance : (callsign COMMA* (unit COMMA*)?)? NEGATIVE? link* instruction (link* instruction)* STOP* EOF ;

link : COMMA | STOP | THEN | AND ;

// Up to three words, then a number or letters and figures: Oceanic 512, N123AB, november one two three alfa bravo.
callsign : namedCallsign | figure tail? tail? tail? tail? tail? tail? ;

// OCEANIC CENTER, behind the callsign: who is speaking (7110.65 2-4-8)
unit : nameWord+ (CENTER | APPROACH) ;

namedCallsign
    : (callsignWord callsignWord? callsignWord? (ALNUM | figure) | ALNUM) tail? tail? tail? tail? tail? tail? HEAVY?
    ;

callsignWord : WORD | LETTER | NAME ;

tail : ALNUM | LETTER | figure ;

instruction
    : heading | turnBy | presentHeading | runwayHeading
    | intercept | arc | vectorTo | join | depart
    | direct | clearedTo | onward | change | filedTo | except
    | corrected | leftOut | level | speed | cross | hold | further | report | expect | lifted | cancel
    | offset | deviation | after | bareLevel
    | begin | filler
    ;

// Said around a clearance, with nothing to fly in it.
filler
    : (LETTER HAVE)? AN? AMENDMENT (TO YOUR (ROUTE (OF FLIGHT)? | ROUTING | CLEARANCE))?
    | NEW_ROUTE | (LETTER HAVE)? (AN | YOUR)? AMENDED (CLEARANCE | ROUTE | ROUTING) | CLEARED? ASIDE
    | AMEND YOUR? (ALTITUDE | ROUTE (OF FLIGHT)? | ROUTING | CLEARANCE)
    | CORRECTION | REROUTED | REQUEST? ARE? APPROVED (AS REQUESTED)? | AS REQUESTED
    | (FOR | CLEARED? VIA)? VECTOR
    | FOR? VECTOR ACROSS THE? (airway | radial) (FOR (REASON | AND)+)?
    | DELAY_EXPECTED | ANTICIPATE expectWord+
    | HASTE (IN? THE? (CLIMB | DESCENT | DESCEND) ((THROUGH | UNTIL (CROSS | PASS)?) altitude)?)?
    | HASTE THROUGH altitude
    | ON? QNH setting | (THE? namedPlace | THE)? ALTIMETER setting
    | RADAR_ENDED | REASON NO nameWord+
    | RADAR_CONTACT (COMMA? number MILE compass (OF | FROM) THE? place)? | ROGER | WAKE
    | CONTACT (nameWord | APPROACH | CENTER)* HASTE? (ON | AT)? frequency
    | traffic
    | POSITION number MILE? compass (OF | FROM) THE? place
    | TIME HASTE number
    | READY_TO_COPY | READ_BACK | SAY_AGAIN | IF_ABLE
    | MAGNETIC TRACK number DEGREES? | DISTANCE number MILE
    ;

// TRAFFIC, 12 O'CLOCK, 5 MILES, OPPOSITE DIRECTION, DESCENDING TO 6000 (2-1-21): up to the next imperative it is heard
traffic : REASON ((COMMA | AT | YOUR)* number OCLOCK HEARD* | HEARD+) ;

// CORRECTION, ONE TWO THOUSAND; CORRECTION, BBB; CORRECTION, WEST; I SAY AGAIN 090: it alone, in the place of the one said last
corrected : (CORRECTION | SAY_AGAIN) COMMA? (altitude | compass | namedPlace | side TURNS) ;

// 2992; 29.92
setting : number | DECIMAL ;

// 128.35; ONE TWO EIGHT POINT THREE FIVE
frequency : DECIMAL | number (POINT number)? ;

// AFTER PASSING BBB, ...; PASSING BBB, ...; AT 1530 ...; AFTER REACHING FL80 ...: what follows begins then; WHEN
// ESTABLISHED, ...: the altitude or speed that follows; or what stands before it, told by the commas
after
    : AFTER (PASS | CROSS | REACH)? when | (IN | AFTER) number (MILE | MINUTE) | WHEN (PASS | CROSS | REACH) when | WHEN LEVEL AT? altitude | PASS when | near | whenOn | DEPART altitude | DEPART (airway AT)? THE? place | FROM THE? place | AT (TIME? number | THE? lineEnd) ;

// Where or when something begins or ends.
when : plainLevel | near | THE? lineEnd | TIME? number ;

// TEN MILES BEFORE BBB
near : number MILE (BEFORE | AFTER) THE? place ;

// A level that cannot be anything else.
plainLevel : FLIGHT LEVEL number | FL number | FL_NUMBER | NUMBER_FT | number FEET ;

// RECLEARED FL190; VIA V40, FL110
bareLevel : (CLEARED? TO)? plainLevel | CLEARED plainLevel ;

// ---- Vectors: 7110.65 5-6-2; Doc 4444 12.4.1 ----

// FLY HEADING 100; PROCEED TO BBB VIA A HEADING OF 100; TURN LEFT HEADING 090; TURN RIGHT, FLY HEADING 190; CONTINUE HEADING 100; STOP TURN HEADING 345; STEER 100
heading
    : ((TURN? side | side TURN) haste? COMMA?)? ((FLY | CONTINUE ON? | MAINTAIN | TO | ONTO | VIA LETTER?)? HEADING | STEER HEADING?) degrees haste? reason? (ending | onto)?
    | (HALT TURN COMMA? | ROLL_OUT ON?) (FLY | CONTINUE)? HEADING degrees reason? ending?
    | (TURN side | side TURN?) haste? (TO | ONTO)? number haste? reason? (ending | onto)?
    ;

// TO V40, TO V40 AT ABCDE: onto it
onto : (TO | ONTO) (airway along | radial | bearing) ;

// UNTIL PRION; UNTIL PASSING FL80; UNTIL CROSSING THE AAA 040 RADIAL
ending : COMMA? UNTIL (PASS | CROSS | REACH | AFTER)? when | UNTIL established | COMMA? FOR number (MILE | MINUTE) ;

// TURN 20 DEGREES LEFT; TURN LEFT 20 DEGREES; LEFT 20 DEGREES; TURN LEFT 20 DEGREES TO V31
// TURN 20 LEFT is by degrees, as TURN LEFT 20 DEGREES; three figures without the word are asked about when it is read.
turnBy : (TURN number DEGREES? side haste? | (TURN side | side TURN?) haste? number DEGREES) reason? onto? ;

presentHeading : (FLY | CONTINUE ON? | MAINTAIN)? YOUR? PRESENT HEADING degrees? reason? (ending | onto)? ;

runwayHeading : (FLY | CONTINUE | MAINTAIN) RUNWAY HEADING reason? ;

// FOR SPACING; VECTORS FOR SEQUENCING: why, nothing to fly
reason : COMMA? (VECTOR? FOR | FOR? VECTOR (FOR | AROUND) | DUE TO?) (REASON | AND)+ ((COMMA | AT | YOUR)* number OCLOCK)? HEARD*
    | COMMA? FOR? VECTOR ACROSS THE? (airway | radial | place)
    ;

haste : HASTE ;

side : LEFT | RIGHT ;

// INTERCEPT VICTOR THIRTY-ONE; VECTORS TO INTERCEPT THE AAA 250 RADIAL; JOIN or VIA THE AAA 250 RADIAL (4-4-1, 5-6-2);
// AAA 250 RADIAL, BBB: and the fix it leads to;
// DIRECT AAA, THEN THE AAA 078 RADIAL OUTBOUND
intercept
    : (toIntercept | toJoin | (CLEARED | PROCEED | REROUTED)? VIA | FOLLOW | TRACK | FLY | turnOn ONTO)? (radial | bearing | sameStation) (lineUntil | TO lineEnd | COMMA namedPlace)?
    | (TO? (INTERCEPT | JOIN) AND)? (TRACK | PROCEED | FLY)? (INBOUND | OUTBOUND) ON? (radial | bearing | sameStation) (lineUntil | TO lineEnd | COMMA namedPlace)?
    | bareLine (lineUntil | TO lineEnd)?
    | toIntercept airway along
    ;

// AAA 066 OUTBOUND; OUTBOUND ON THE 066; TRACK INBOUND AAA ON THE 246 COURSE: a radial or a course without the word
bareLine
    : (toIntercept | toJoin | (CLEARED | PROCEED | REROUTED)? VIA | FOLLOW | TRACK | FLY)? THE? place number DEGREES? (INBOUND | OUTBOUND)
    | (TO? (INTERCEPT | JOIN) AND)? (TRACK | PROCEED | FLY)? (INBOUND | OUTBOUND) ((TO | FROM)? THE? place)? ((ON | VIA) THE? | THE)? number DEGREES?
      (RADIAL | COURSE)?
    | (TRACK | THE)? number DEGREES? COURSE? (INBOUND | OUTBOUND)
    ;

// THE 064 RADIAL INBOUND: of the station named before
sameStation : THE? number DEGREES? (RADIAL | BEARING) sense? ;

// UNTIL THE AAA 040 RADIAL; UNTIL 25 DME; UNTIL CROSSING THE AAA 040 RADIAL
lineUntil : COMMA? (UNTIL (CROSS | PASS)? lineEnd | AT (DME number | number MILE? DME) | FOR number (MILE | MINUTE)) ;

lineEnd
    : THE? place? number RADIAL (OF THE? place)?
    | THE? RADIAL number ((OF | FROM)? THE? place)?
    | THE? number MILE? DME ((FROM | OF) THE? place)?
    | number MILE (FROM | OF) THE? place
    | THE? place number MILE? DME
    | airway
    | THE? place
    ;

// INTERCEPT THE AAA 15 MILE ARC, ARC NORTHWEST BOUND TO THE AAA 070 RADIAL; VIA 15 MILE ARC SOUTH OF AAA (4-4-1)
arc : (arcLead THE? | (FLY | FOLLOW | MAINTAIN)? THE | arcWay ON THE? | FLY | FOLLOW)? arcBody ;

arcBody : arcName (COMMA? arcWay)* (COMMA? (ARC? (TO | UNTIL) (CROSS | INTERCEPT | REACH)? | DEPART THE? ARC AT) lineEnd (COMMA? (AND | THEN)? (TRACK | PROCEED | FLY)? (INBOUND | OUTBOUND) place?)?)? ;

arcLead : toIntercept | toJoin | turnOn ONTO | (CLEARED | PROCEED | REROUTED | CONTINUE)? VIA ;

arcName
    : place number MILE? DME? ARC (compass ((OF | FROM) THE? place)?)?
    | place DME number MILE? ARC
    | number MILE? DME? ARC (compass? (OF | FROM | AROUND)? THE? place | (OF | FROM | AROUND) THE? place compass)
    | place ARC number MILE? DME?
    | ARC compass (OF | FROM) THE? place (COMMA? (AT | ON)? THE? number MILE? DME? ARC?)?
    ;

arcWay : ARC? (CLOCKWISE | COUNTERCLOCKWISE | COMPASS_BOUND) | ARC compass ((OF | FROM) THE? place)? ;

toIntercept
    : ((FOR | VIA)? VECTOR | turnOn)? TO? INTERCEPT (AND (TRACK | FOLLOW | FLY | JOIN | PROCEED VIA))?
    | UNTIL INTERCEPT
    | UNTIL established ON
    ;

toJoin : ((FOR | VIA)? VECTOR | turnOn)? TO? (JOIN | REJOIN) (AND (TRACK | FOLLOW | FLY | PROCEED VIA))? ;

// TURN LEFT (TO INTERCEPT V40), of a heading said before it
turnOn : (TURN side | side TURN) haste? (COMMA | AND)? ;

// VECTOR TO VICTOR THIRTY-ONE, to a radial, or to a fix: the purpose of a vector (5-6-2)
vectorTo : (FOR | CLEARED? VIA)? VECTOR (TO | FOR)? THE? (airway | radial | bearing | place) | VECTOR FOR (REASON | AND)+ ;

// ---- Lines: 7110.65 4-4-1 ----

// THE AAA 250 RADIAL INBOUND; THE 250 RADIAL OF AAA; THE AAA 070 COURSE INBOUND
radial
    : THE? place number DEGREES? (RADIAL | COURSE | BEARING) sense?
    | THE? place RADIAL number DEGREES? sense?
    | THE? number DEGREES? RADIAL (OF | FROM | INBOUND TO | OUTBOUND FROM) THE? place sense?
    | THE? RADIAL number (OF | FROM)? THE? place sense?
    | THE? place R_RADIAL sense?
    ;

// THE 250 BEARING FROM AAA OUTBOUND; THE 070 COURSE TO AAA
bearing
    : THE? number DEGREES? (BEARING | COURSE) (INBOUND? TO | OUTBOUND? FROM) THE? place sense?
    | THE? BEARING number (TO | FROM) THE? place sense?
    | QDM number TO? THE? place
    | QDR number FROM? THE? place
    | TRACK number (INBOUND | OUTBOUND) THE? place
    ;

// OUTBOUND; TRACK IT INBOUND; AND PROCEED INBOUND
sense : (COMMA | COMMA? (AND | THEN) | COMMA? (AND | THEN)? (TRACK | PROCEED | FLY) IT?)? (INBOUND | OUTBOUND) ;

// VICTOR THIRTY-ONE, V31, V-31, J FIVE THIRTY-THREE, UB10 (2-5-1; group form AIM 4-2-8)
airway : THE? AIRWAY? UPPER? (AIRWAY_IDENT | ALNUM | LETTER+ number) ;

// ---- Route: 7110.65 4-2-5, 4-4-1 ----

// JOIN V31; JOIN V31 SOUTHBOUND; JOIN V31 AT ABCDE; VIA V31 TO BBB; CLEARED VIA V31 BBB; and, later in a route, V31 BBB
join : (((CLEARED | PROCEED | REROUTED | REJOIN)? VIA) | CLEARED | toJoin | turnOn ONTO | UNTIL JOIN | FOLLOW | RESUME)? airway along
    | toJoin IT
    ;

along : COMPASS_BOUND? (AT THE? place (AT plainLevel)? | COMMA? AT? awayFrom)? (INBOUND? TO THE? place | COMMA? namedPlace)?
      (COMMA? joinBound | COMMA? joinWithin)? ;

// AT OR BEFORE BBB; PRIOR TO BBB; AT OR SOUTH OF BBB; NO LATER THAN BBB: as far as where an airway is joined
joinWithin
    : ((AT OR)? (BEFORE | compass OF) | AT OR AFTER | BY | (NOT | NO) (BEFORE | AFTER) THAN?) THE? place
    | AT THE? place OR (BEFORE | AFTER)
    ;

// AT OR ABOVE NINER THOUSAND, of the fix where an airway is joined
joinBound : (AT? bound | notBound) altitude ;

// TEN MILES NORTH OF AAA; TEN MILES NORTH OF AAA ON V31
awayFrom : number (MILE DME? | DME) compass (OF | FROM) THE? place (ON airway)? ;

compass : COMPASS ;

// WHEN ABLE, PROCEED DIRECT BBB; TURN LEFT DIRECT BBB; PRESENT POSITION DIRECT; PROCEED TO BBB (4-2-5 a3, 4-4-1 i)
direct
    : (whenAble COMMA?)? ((TURN? side | side TURN) haste? COMMA?)? (CLEARED | PROCEED | FLY | ROUTE | TRACK | REROUTED | SET_COURSE)?
      presentPosition? (CLEARED | PROCEED | FLY)? VIA? DIRECT (TO? THE? (radialFix | place | DESTINATION) | pointAway)
      (whenAble | onWay)? furtherFix*?
    | (whenAble COMMA?)? ((TURN? side | side TURN) COMMA?)? (PROCEED TO | (RESUME YOUR?)? OWN? NAVIGATION TO | SET_COURSE (TO | FOR)?)
      (THE? (radialFix | place) DIRECT? | pointAway) (whenAble | onWay)?
    | (CLEARED | PROCEED | REROUTED)? VIA THE? (radialFix | place) furtherFix*?
    | (whenAble COMMA? (CLEARED | PROCEED)?)? VIA? DIRECT
    ;

presentPosition : VIA? FROM? PRESENT POSITION COMMA? ;

// TO A POINT FIVE MILES EAST OF BBB
pointAway : TO? (LETTER? POINT)? awayFrom ;

// PROCEED TO BBB ON THE AAA 078 RADIAL; ON V40: the way there
onWay : ON (radial | airway) ;

// DIRECT AAA, BBB: from fix to fix
furtherFix : (COMMA | COMMA? AND? THEN | COMMA? AND) namedPlace ;

whenAble : (WHEN | UNTIL) ABLE TO? | WHEN RECEIVING THE? place (SUITABLE FOR NAVIGATION)? ;

// DEPART BBB HEADING 120; DEPART AAA ON THE 078 RADIAL (7110.65 5-6-2, 4-4-1); FROM AAA VIA THE 078 RADIAL
depart
    : DEPART THE? place COMMA? ((FLY | ON | TURN? side)? HEADING degrees | departLine) reason?
    | FROM THE? place COMMA? departLine
    | DEPART THE? place COMMA? AT TIME? number
    | DEPART THE? ARC AT lineEnd
    ;

departLine
    : (OUTBOUND ON | OUTBOUND VIA | ON | VIA)? THE? (place? number (RADIAL | BEARING) | number (RADIAL | BEARING) (OF | FROM) THE? place) OUTBOUND? lineUntil?
    | (OUTBOUND ON? | ON) THE? number DEGREES? COURSE? OUTBOUND? lineUntil?
    ;

radialFix
    : place number RADIAL number MILE? DME? FIX
    | number RADIAL (OF | FROM) THE? place AT number MILE? DME? FIX
    ;

// CLEARED TO XBBB AIRPORT (4-2-1, 4-3-3)
clearedTo
    : CLEARED TO THE? (radialFix | place)
    | CLEARED namedPlace VIA
    | YOUR? CLEARANCE LIMIT ARE? THE? place
    ;

// THEN AS FILED (4-3-3); RESUME OWN NAVIGATION (5-6-2); REST OF ROUTE UNCHANGED (4-2-5 a2); ON COURSE
onward
    : (CLEARED | CONTINUE | PROCEED)? AS FILED
    | (CLEARED? VIA)? FLIGHT PLANNED ROUTE
    | AS LAST? CLEARED
    | (RESUME | REJOIN | CONTINUE) ((YOUR | THE)? FLIGHT PLANNED | (YOUR | THE)? (FILED | CLEARED)?) ROUTE (AT THE? place | BY (THE? place | TIME? number))?
    | (RESUME YOUR? (OWN | NORMAL)? | OWN) NAVIGATION whenOn?
    | whenOn COMMA? RESUME YOUR? (OWN | NORMAL)? NAVIGATION
    | REST OF (THE | YOUR)? (ROUTE | ROUTING | CLEARANCE | FLIGHT PLANNED) (UNCHANGED | AS FILED | AS LAST? CLEARED)
    | turnOn? (CLEARED | PROCEED | RESUME | CONTINUE)? ON (COURSE | TRACK)
    | turnOn (RESUME YOUR? (OWN | NORMAL)? | OWN) NAVIGATION
    | CLEARED? VIA? LAST ROUTING CLEARED
    | REST (AS (FILED | CLEARED) | UNCHANGED)
    ;

// AS FILED TO BBB, THEN ...: what follows begins there
filedTo : ((CLEARED | CONTINUE | PROCEED)? AS FILED | (CLEARED? VIA)? FLIGHT PLANNED ROUTE) (TO | UNTIL) THE? place ;

// AS FILED EXCEPT DIRECT BBB (4-2-5 a2)
except : EXCEPT THAT? ;

// WHEN ESTABLISHED ON V31; AFTER INTERCEPTING V31
whenOn : WHEN established (ON onLine)? | (WHEN | AFTER) (INTERCEPT | JOIN) onLine ;

// ESTABLISHED INBOUND: the radial is flown so
established : ESTABLISHED (INBOUND | OUTBOUND)? ;

onLine : THE? (AIRWAY | RADIAL | COURSE | ARC) | airway | radial ;

// CHANGE VICTOR FORTY-ONE AAA TO READ VICTOR FORTY-ONE CCC, VICTOR SEVENTY-ONE AAA (4-2-5 a1)
// SUBSTITUTE VICTOR THIRTY-ONE FROM AAA TO BBB (4-4-1): the new way between two fixes
change
    : EXCEPT? (CHANGE | AMEND) (YOUR? (ROUTE (OF FLIGHT)? | ROUTING) | oldLeg (COMMA? oldLeg)*) COMMA? TO READ (join | direct) (COMMA? (join | direct))*
    | SUBSTITUTE airway FROM THE? place TO THE? place
    ;

oldLeg : VIA? airway (TO? place)? | DIRECT TO? place ;

// DISREGARD; DISREGARD THE AMENDMENT; CANCEL AMENDED CLEARANCE (P/CG "disregard"; Doc 4444 12.3.1.1, from memory)
cancel : (CANCEL | DISREGARD) (THAT | THE? LAST? (AMENDED? CLEARANCE | AMENDED (ROUTE | ROUTING) | AMENDMENT) | MY? LAST TRANSMISSION? | MY LAST CLEARANCE? | (THE | MY | YOUR | LAST)* partOf)? ;

// DELETE BBB; SKIP BBB: it is flown past
leftOut : (CANCEL | OMIT) THE? place (AND THE? place)* ;

// THE CLIMB, YOUR LAST HEADING: one part of a clearance, which is not taken back by itself
partOf
    : (CLIMB | DESCEND | DESCENT | HEADING | ALTITUDE | LEVEL | SPEED | TURN | CROSS | VECTOR | INTERCEPT | DIRECT | ROUTE
      | ROUTING | REROUTED | RESTRICTION | HOLD)+ expectWord*
    ;

// ---- Altitudes: 7110.65 4-5-7 ----

// CLIMB AND MAINTAIN SIX THOUSAND; MAINTAIN FL190 UNTIL ESTABLISHED ON THE AIRWAY
level
    : (begin COMMA?)? levelVerb altitude (begin | COMMA? until | levelBy | COMMA? rate)* haste? thenLevel*
    | (CLIMB | DESCEND) begin COMMA? cross COMMA? MAINTAIN altitude
    | (CLIMB | DESCEND) VIA radial COMMA? MAINTAIN altitude
    | (CLIMB | DESCEND) VIA (airway | THE? place)
    | MAINTAIN YOUR? PRESENT (ALTITUDE | LEVEL)
    | levelVerb BLOCK altitude (THROUGH | TO) altitude
    | (CRUISE CLIMB | MAINTAIN) BETWEEN altitude AND altitude
    | CRUISE altitude
    | MAINTAIN (AT (LEAST | bound) | notBound) altitude (COMMA? until thenLevel*)?
    | MAINTAIN altitude bound (COMMA? until thenLevel*)?
    | DO NOT (CLIMB | DESCEND) (ABOVE | BELOW) altitude (COMMA? until)?
    ;

// ..., THEN TEN THOUSAND UNTIL CCC
thenLevel : COMMA? THEN altitude (COMMA? until)? ;

levelVerb
    : HASTE? (CLIMB | DESCEND) haste? begin? COMMA? (TO REACH | REACH | TO? AND? MAINTAIN?)
    | HASTE? MAINTAIN
    | HALT YOUR? (CLIMB | DESCENT | DESCEND) AT
    | CONTINUE YOUR? (CLIMB | DESCENT | DESCEND) TO?
    ;

// AT PILOT'S DISCRETION; WHEN READY
begin : AT? (PILOTS | YOUR? OWN | YOUR) DISCRETION | WHEN READY ;

until
    : UNTIL established (COMMA? ON onLine)?
    | UNTIL (PASS | CROSS | AFTER)? (near | THE? lineEnd | TIME? number)
    | TO THE? place
    | UNTIL FURTHER? ADVISED (BY nameWord+ CENTER?)?
    ;

// TO BE LEVEL BY BBB; TO REACH BY BBB; LEVEL TEN MILES BEFORE BBB; BY 1530
levelBy
    : COMMA? (((TO BE | TO | BE) (LEVEL | REACH)? | LEVEL | REACH) (BY | AT (OR BEFORE)?) | BY | AT OR BEFORE | BEFORE CROSS?)
      (near | THE? place | TIME? number)
    | AT (near | THE? place | TIME? number)
    | COMMA? (TO BE | BE)? LEVEL near
    ;

// AT 500 FEET PER MINUTE OR GREATER
rate : AT number FEET PER MINUTE speedBound? ;

altitude
    : (FLIGHT LEVEL | FL) number
    | FL_NUMBER
    | NUMBER_FT
    | ALTITUDE? number FEET?
    ;

// CROSS ABCDE AT 6000; AT OR ABOVE 6000; AT 6000 OR ABOVE; AT AND MAINTAIN 6000
cross
    : ((CLIMB | DESCEND)? TO)? (CROSS | PASS_AT) crossPlace (crossLimit | altitude bound? (AND MAINTAIN)?) (COMMA? crossLimit)*
    | TO CROSS crossLimit (COMMA? crossLimit)*
    ;

// TEN MILES WEST OF BBB; V31, TEN MILES WEST OF BBB (4-4-1); 15 MILES BEFORE BBB; 20 MILES DME AAA; THE AAA 040 RADIAL
crossPlace : airway (COMMA? awayFrom COMMA?)? | THE? (awayFrom | near | number (MILE? DME FROM? | MILE FROM) THE? place | place number RADIAL | radialFix | place) | IT ;

crossLimit
    : AND? (AT? bound | notBound) altitude
    | AT (AND MAINTAIN)? altitude bound? (AND MAINTAIN)?
    | BETWEEN altitude AND altitude
    | AT TIME number
    | AT TIME? number OR (AFTER | BEFORE)
    | AT OR (AFTER | BEFORE) TIME? number
    | (NOT | NO) (BEFORE | AFTER) THAN? TIME? number
    | (AT | AND AT? | COMMA) number KNOTS speedBound?
    ;

bound : OR (ABOVE | BELOW) ;

// NOT BELOW, NO HIGHER THAN
notBound : (NOT | NO) (ABOVE | BELOW) THAN? ;

// ---- Speeds: 7110.65 5-7-2, 5-7-4 ----

// MAINTAIN 180 KNOTS (OR GREATER); ..., THEN 140 KNOTS; REDUCE SPEED TO 140; MAINTAIN PRESENT SPEED; DO NOT EXCEED 150 KNOTS
speed
    : MAINTAIN number KNOTS speedBound? (speedUntil thenSpeed*)?
    | MAINTAIN? SPEED number KNOTS? speedBound? (speedUntil thenSpeed*)?
    | (REDUCE | INCREASE) (SPEED TO? | TO) number KNOTS? speedBound? (speedUntil thenSpeed*)?
    | (REDUCE | INCREASE) SPEED? BY number KNOTS?
    | (REDUCE | INCREASE) number KNOTS speedBound?
    | DO NOT EXCEED number KNOTS speedUntil?
    | MAINTAIN PRESENT SPEED
    | RESUME (NORMAL | PUBLISHED) SPEED
    | (MAINTAIN | REDUCE TO | INCREASE TO) (EXTREME | LEAST) (EXTREME | LEAST | APPROACH)* SPEED
    ;

// ..., THEN 130 KNOTS UNTIL CCC
thenSpeed : COMMA? THEN number KNOTS speedBound? speedUntil? ;

speedUntil
    : COMMA? UNTIL (PASS | CROSS | AFTER)? (near | THE? lineEnd | TIME? number)
    | COMMA? UNTIL established (COMMA? ON onLine)?
    | COMMA? UNTIL FURTHER? ADVISED
    ;

// DELETE SPEED RESTRICTIONS; NO SPEED RESTRICTIONS; CANCEL HOLD; CANCEL OFFSET
lifted
    : CANCEL THE? (SPEED | ALTITUDE | LEVEL | CROSS) RESTRICTION liftedAt?
    | THE? (SPEED | ALTITUDE | LEVEL | CROSS) RESTRICTION liftedAt? ARE? CANCELED
    | NO ATC? (SPEED | ALTITUDE | LEVEL) RESTRICTION
    | (CANCEL | DEPART) THE? HOLD PATTERN? (AT TIME? number | liftedAt)?
    | CANCEL OFFSET
    ;

// AT ABCDE: where what no longer holds was to be kept
liftedAt : (AT | OVER) THE? place ;

// CLEARED TO DEVIATE UP TO 20 MILES RIGHT OF COURSE; DEVIATION 20 MILES RIGHT OF V40 APPROVED (2-6-4; Doc 4444 15.2.3,
// both from memory)
// The UP of "up to" is the word for a climb, too.
deviation
    : (CLEARED TO)? DEVIATE (number (MILE | DEGREES))? sides? deviatedFrom? (COMMA? CLIMB TO number MILE)?
      ((DUE TO? | FOR | AROUND) (REASON | AND)+)? APPROVED?
    ;

sides : EITHER SIDE | side ((AND | OR) side)? ;

deviatedFrom : (OF | FROM) (YOUR | THE)? (COURSE | ROUTE | TRACK | airway) ;

// OFFSET 8 MILES RIGHT OF V40
offset : PROCEED? OFFSET number MILE side OF (YOUR? ROUTE | airway) ending? ;

speedBound : OR (GREATER | LESS) ;

// ---- Holding: 7110.65 4-6-4 ----

// HOLD WEST OF AAA ON THE 270 RADIAL, 1 MINUTE LEGS, LEFT TURNS, EXPECT FURTHER CLEARANCE 1530
hold
    : HOLD (AT | OVER)? YOUR? PRESENT POSITION
    | HOLD SHORT (OF THE? (RUNWAY | airway | place))?
    | HOLD AS PUBLISHED (AT | OVER) THE? (radialFix | place) (COMMA? (holdOn | holdPart | holdLevel))*
    | HOLD compass? ON THE? radialOf BETWEEN number AND number (MILE DME? | DME) (COMMA? (holdOn | holdPart | holdLevel))*
    | HOLD compass? ON THE? radialOf COMMA? AT THE? (DISTANCE number MILE? DME? | number MILE? DME FIX?)
      (COMMA? (holdOn | holdPart | holdLevel))*
    | HOLD THERE? COMMA? (compass ((OF | AT) THE? (radialFix | place))? | (OF | AT | OVER)? THE? (radialFix | place))?
      (COMMA? (holdOn | holdPart | holdLevel))*
    | HOLD awayFrom (COMMA? (holdOn | holdPart | holdLevel))*
    ;

radialOf : number RADIAL (OF | FROM) THE? place | place number RADIAL ;

holdLevel : MAINTAIN altitude | MAINTAIN? plainLevel ;

holdOn
    : ON THE? place number (RADIAL | COURSE | BEARING | TRACK)
    | ON THE? number (RADIAL | COURSE | BEARING | TRACK) ((OF | FROM | TO) THE? (place | NDB | VOR | FIX))? sense?
    | ON THE? (RADIAL | COURSE | BEARING | TRACK) number ((OF | FROM | TO) THE? (place | NDB | VOR | FIX))? sense?
    | ON airway
    | (ON THE?)? INBOUND (TRACK | COURSE)? number DEGREES?
    ;

holdPart
    : length (MINUTE | MILE) DME? LEG?
    | OUTBOUND TIME length MINUTE
    | OUTBOUND DISTANCE length MILE
    | side (HAND? (TURNS | PATTERN) | TURN | HAND)
    | STANDARD (TURNS | PATTERN)?
    | AS PUBLISHED
    | FOR? number (CIRCUIT | TURN) (IN THE? (HOLD PATTERN? | PATTERN))?
    | FOR? COURSE REVERSAL
    | furtherTime
    | UNTIL TIME? number
    ;

furtherTime
    : (EXPECT FURTHER CLEARANCE | EFC | approachTime) ((AT | TIME | (NO | NOT) AFTER THAN)* number LETTER? (COMMA? TIME number LETTER?)? | IN number MINUTE)
    ;

// EXPECT APPROACH CLEARANCE 1545: leaving the hold begins the approach, and no other part of the route (Doc 4444, expected approach time, from memory)
approachTime : EXPECT APPROACH (CLEARANCE | TIME)? | EAC ;

// The same, said later or with no hold.
further : furtherTime ;

length : number | DECIMAL | number AND (LETTER | DIGIT) HALF ;

// REPORT ESTABLISHED ON THE ARC; REPORT PASSING BBB: to be said, nothing to fly
report : REPORT (CROSS | DEPART | HEADING | SPEED | WHEN)? reportWord* ;

// The same, but for a direct or a way, which is never reported.
reportWord
    : TO (INTERCEPT | JOIN | HOLD | RESUME)
    | ~( COMMA | STOP | THEN | FLY | TURN | CLIMB | DESCEND | MAINTAIN | STEER | RESUME | CROSS | REST | CHANGE | CANCEL
       | DISREGARD | REDUCE | INCREASE | SPEED | EXPECT | CLEARED | PROCEED | INTERCEPT | JOIN | HOLD | AS | WHEN | HEADING
       | AMEND | DEPART | REPORT | REROUTED | REJOIN | HALT | OFFSET | CORRECTION | CRUISE | ANTICIPATE | QNH | DIRECT | VIA
       | ALTIMETER | RADAR_CONTACT | ROGER | WAKE | CONTACT | OCLOCK | MY
       | DELAY_EXPECTED | ASIDE | DEVIATE | READY_TO_COPY | READ_BACK | NOT_OURS | STRANGE | SET_COURSE | NEGATIVE | ROLL_OUT )
    ;

// ---- Advance information: 7110.65 4-2-5, 5-6-2 ----

// EXPECT VICTOR EIGHTY-EIGHT AFTER BBB: kept in the words as said
expect
    : EXPECT FURTHER CLEARANCE VIA expectWord* (COMMA expectedWay expectWord*)*
    | EXPECT expectLead* expected expectWord*
    | EXPECT expectLead* (AS FILED | CLIMB | DESCEND)? expectWord*
    | YOU_WILL (INTERCEPT | JOIN | REJOIN) airway expectWord*
    ;

// EXPECT FURTHER CLEARANCE VIA DIRECT AAA, VICTOR THIRTY-ONE BBB (4-6-1): the whole of a route, comma by comma
expectedWay : VIA? (DIRECT | airway | radial | place) ;

// TO BE, A
expectLead : TO | BE | AN | THE | LETTER ;

// DESCEND AND MAINTAIN 6000; HOLD AT BBB; CLEARED DIRECT BBB: an instruction that is to be expected is not cleared
expected
    : heading | turnBy | presentHeading | intercept | arc | vectorTo | join | depart | direct | clearedTo | onward | level
    | speed | cross | hold | airway | radial
    ;

// Any words but those that begin the next instruction, so that none of those is swallowed.
expectWord
    : TO (INTERCEPT | JOIN | HOLD | RESUME)
    | ~( COMMA | STOP | THEN | FLY | TURN | CLIMB | DESCEND | MAINTAIN | STEER | RESUME | CROSS | REST | CHANGE | CANCEL
       | DISREGARD | REDUCE | INCREASE | SPEED | EXPECT | CLEARED | PROCEED | INTERCEPT | JOIN | HOLD | AS | WHEN | HEADING
       | AMEND | DEPART | REPORT | REROUTED | REJOIN | HALT | OFFSET | CORRECTION | CRUISE | ANTICIPATE | QNH
       | ALTIMETER | RADAR_CONTACT | ROGER | WAKE | CONTACT | OCLOCK | MY
       | DELAY_EXPECTED | ASIDE | DEVIATE | READY_TO_COPY | READ_BACK | NOT_OURS | STRANGE | SET_COURSE | NEGATIVE | ROLL_OUT )
    ;

// ---- Names and numbers ----

// By ident, spelled in letters, or by the spoken name; 46N078W and AAA078064 as in a flight plan
place : namedPlace | ALNUM facility? ;

namedPlace : nameWord+ facility? ;

nameWord : WORD | LETTER | NAME ;

facility : AIRPORT | VOR | NDB | FIX ;

degrees : number DEGREES? (MAGNETIC | TRUE)? ;

// Digit by digit or in groups: 250, two five zero, two fifty, one two thousand five hundred (AIM 4-2-8 to 4-2-10)
number : figure+ ;

figure : NUMBER | DIGIT | TEEN | TENS | HUNDRED | THOUSAND ;

// ---- Readback: shorter than an instruction, the callsign in front or behind (AIM 4-4-7) ----

// In front a number alone is an item: a heading, an altitude, or a callsign without its name
readback
    : (namedCallsign COMMA*)? link* readbackItem (link* readbackItem | link+ bareItem)* (COMMA* callsign)? STOP* EOF
    | (namedCallsign COMMA*)? link* bareItem (link* readbackItem | link+ bareItem)* (COMMA* callsign)? STOP* EOF
    ;

readbackItem : instruction | looseRadial | arcBody ;

// Begins with a number, so a comma must part it from a number before it.
bareItem : altitude | bareHeading | bareRadial | looseRadial ;

// The word heading behind, or left out beside a turn: ONE TEN HEADING; LEFT ONE ONE ZERO
bareHeading : (TURN? side)? number HEADING | TURN? side number ;

// The station said behind: INTERCEPT 066 RADIAL AAA; 066 AAA
bareRadial : (toIntercept | JOIN)? THE? number RADIAL sense? place | number place ;

// The word radial left out: INTERCEPT THE AAA 250; THE AAA 250
looseRadial : (toIntercept THE? | THE) place number ;

// A callsign alone, the last part of a readback
callsignAlone : callsign STOP* EOF ;

// The same words where the chart has such a station
looseRadialAlone : looseRadial EOF ;

// ---- Words ----

ABLE : 'able' ;
ABOVE : 'above' | 'higher' ;
ACROSS : 'across' ;
ADVISED : 'advised' | 'notice' ;
AFTER : 'after' | 'past' | 'later' ;
AIRPORT : 'airport' | 'aerodrome' ;
AIRWAY : 'airway' ;
ALTIMETER : 'altimeter' ;
ALTITUDE : 'altitude' ;
AMEND : 'amend' ;
AMENDED : 'amended' | 'revised' ;
AMENDMENT : 'amendment' ;
AN : 'an' ;
AND : 'and' ;
ANTICIPATE : 'anticipate' ;
APPROACH : 'approach' ;
APPROVED : 'approved' ;
ARC : 'arc' | 'arcing' ;
ARE : 'are' | 'is' ;
AROUND : 'around' ;
AS : 'as' ;
ASIDE : '(amended clearance)' ;
AT : 'at' ;
ATC : 'atc' ;
BE : 'be' ;
BEARING : 'bearing' ;
BEFORE : 'before' | 'earlier' | 'prior' ([ ]+ 'to')? ;
BELOW : 'below' | 'lower' ;
BETWEEN : 'between' ;
BLOCK : 'block' ;
BY : 'by' ;
CENTER : 'center' | 'centre' | 'control' | 'departure' | 'tower' | 'radio' ;
CANCEL : 'cancel' | 'delete' ;
CANCELED : 'canceled' | 'cancelled' | 'deleted' ;
CHANGE : 'change' ;
CIRCUIT : 'circuit' | 'circuits' ;
CLEARANCE : 'clearance' ;
CLEARED : ('you' ([ ]+ 'are' | ['\u2019] 're') [ ]+ ('now' [ ]+)?)? ('cleared' | 'recleared' | 're-cleared') ;
CLIMB : 'climb' | 'climbing' | 'up' ;
CLOCKWISE : 'clockwise' ;
COMPASS : DIRECTION ;
COMPASS_BOUND : DIRECTION [ -]* 'bound' ;
CONTINUE : 'continue' | 'stay' ;
COUNTERCLOCKWISE : ('counter' | 'anti') [ -]? 'clockwise' ;
CONTACT : 'contact' | 'monitor' ;
CORRECTION : 'correction' ;
COURSE : 'course' ;
CROSS : 'cross' | 'crossing' ;
CRUISE : 'cruise' ;
DEGREES : 'degrees' | 'degree' | '\u00B0' ;
DELAY_EXPECTED : 'no' [ ]+ 'delay' [ ]+ 'expected' ;
DEPART : 'depart' | 'departing' | 'leave' | 'leaving' ;
DESCEND : 'descend' | 'descending' | 'down' ;
DESCENT : 'descent' ;
DESTINATION : 'destination' ;
DEVIATE : ('deviate' | 'deviation' | 'deviations') ([ ]+ 'up' [ ]+ 'to')? ;
DIRECT : ('go' [ ]+)? 'direct' ;
DISCRETION : 'discretion' ;
DISREGARD : 'disregard' ;
DISTANCE : 'distance' ;
DO : 'do' ;
DME : 'dme' | 'd' [ -]+ 'm' [ -]+ 'e' ;
DUE : 'due' ;
EFC : 'efc' ;
EAC : 'eac' ;
EITHER : 'either' ;
ESTABLISHED : 'established' ;
EXCEED : 'exceed' ;
EXCEPT : 'except' | 'but' ;
EXPECT : ('you' [ ]+ ('can' | 'may') [ ]+)? 'expect' ;
EXTREME : 'maximum' | 'minimum' | 'forward' | 'clean' | 'slowest' | 'fastest' | 'practical' ;
FEET : 'feet' | 'ft' | ['\u2019] ;
FILED : 'filed' ([ ,]+ 'thereafter')? ;
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
HAVE : 'have' ;
HEADING : (('assigned' | 'new') [ ]+)? ('heading' | 'hdg') ([ ]+ 'of')? ; // HDG: ICAO Doc 8400
HEAVY : 'heavy' | 'super' ;
// A name may begin so: CLEARED TO HOLDR, AFTER THATS.
HOLD : (('cleared' [ ]+ 'to' | ('join' | 'enter') [ ]+ 'the') [ ]+)? ('hold' | 'holding') {!Character.isLetterOrDigit(_input.LA(1))}? ;
IF_ABLE
    : 'if' [ ]+ ('able' | 'practical' | 'practicable' | 'possible' | 'feasible')
    | 'if' [ ]+ ('unable' | 'not' [ ]+ 'able') [, ]+ 'advise' | 'advise' [ ]+ 'if' [ ]+ ('unable' | 'not' [ ]+ 'able')
    ;
IN : 'in' ;
INBOUND : 'inbound' ;
INCREASE : 'increase' | 'increasing' ;
INTERCEPT : ('re' '-'?)? 'intercept' | 'intercepting' ;
IT : 'it' ;
JOIN : 'join' | 'joining' | 'enter' | 'entering' ;
KNOTS : 'knots' | 'knot' ;
LAST : 'last' | 'previous' | 'previously' ;
LEAST : 'least' ;
LEFT : 'left' ;
LEG : 'leg' | 'legs' ;
LESS : 'less' ;
LEVEL : 'level' ;
LIMIT : 'limit' ;
MAGNETIC : 'magnetic' ;
MAINTAIN : 'maintain' | 'maintaining' | 'keep' ;
MILE : 'mile' | 'miles' ;
MINUTE : 'minute' | 'minutes' ;
MY : 'my' ;
NAVIGATION : 'navigation' ;
NDB : 'ndb' | 'n-d-b' | 'beacon' ;
NEGATIVE : 'negative' [ ]* [,.;:] ; // what was read back is wrong: the whole is said again
NEW_ROUTE : 'new' [ ]+ ('route' | 'routing' | 'clearance') ;
NO : 'no' ;
NORMAL : 'normal' ;
NOT : 'not' ;
OCLOCK : 'o' ['\u2019]? 'clock' ;
OF : 'of' | 'off' ([ ]+ 'of')? ;
OFFSET : 'offset' ;
OMIT : 'skip' | 'omit' | 'bypass' ;
ON : 'on' ;
ONTO : 'onto' ;
OR : 'or' ;
OUTBOUND : 'outbound' ;
OVER : 'over' ;
OWN : 'own' ;
PASS : 'passing' ;
PASS_AT : 'pass' ;
PATTERN : 'pattern' ;
PER : 'per' ;
PILOTS : 'pilot' ['\u2019]? 's'? | 'pilots' ['\u2019] ;
PLANNED : 'planned' | 'plan' ;
POINT : 'point' | 'decimal' ;
POSITION : 'position' ;
PRESENT : 'present' ;
PROCEED : 'proceed' | 'navigate' ;
PUBLISHED : 'published' | 'charted' | 'depicted' ;
QDM : 'qdm' ;
QDR : 'qdr' ;
QNH : 'qnh' ;
RADAR_CONTACT : 'radar' [ ]+ 'contact' ;
RADAR_ENDED : 'radar' [ ]+ ('service' [ ]+ 'terminated' | 'contact' [ ]+ 'lost') ;
RADIAL : 'radial' | 'azimuth' ;
REACH : 'reach' | 'reaching' ;
READ : 'read' ;
READ_BACK : 'read' [ ]? 'back' ;
READY : 'ready' ;
READY_TO_COPY : ('advise' [ ]+)? ('when' [ ]+)? 'ready' [ ]+ ('to' | 'for') [ ]+ 'copy' ;
RECEIVING : 'receiving' ;
REASON : 'spacing' | 'traffic' | 'sequencing' | 'sequence' | 'separation' | 'weather' | 'delay' | 'delaying' | 'identification' | 'avoidance' ;
REDUCE : 'reduce' | 'reducing' | 'slow' | 'slowing' ;
REJOIN : 're' '-'? 'join' ;
REPORT : 'report' | 'advise' ;
REQUEST : 'request' ;
REQUESTED : 'requested' ;
REROUTED : 'rerouted' | 're-routed' | 'reroute' | 'change' [ ]+ 'of' [ ]+ ('route' | 'routing') ;
REST : 'rest' | 'remainder' | 'balance' ;
RESTRICTION : 'restriction' | 'restrictions' ;
RESUME : 'resume' ;
REVERSAL : 'reversal' ;
RIGHT : 'right' ;
ROGER : 'roger' ;
ROLL_OUT : 'roll' [ ]+ 'out' ;
ROUTE : 'route' ;
ROUTING : 'routing' ;
RUNWAY : 'runway' ;
SAY_AGAIN : ('i' [ ]+)? 'say' [ ]+ 'again' ;
SET_COURSE : 'set' [ ]+ 'course' ;
SHORT : 'short' ;
SIDE : 'side' ;
SPEED : 'speed' ;
STANDARD : 'standard' ;
STEER : 'steer' | 'steering' ;
SUBSTITUTE : 'substitute' ;
SUITABLE : 'suitable' ;
THAN : 'than' ;
THAT : 'that' ;
THE : 'the' ;
THEN : 'then' | 'thence' | 'thereafter' | 'after' [ ]+ 'that' {!Character.isLetterOrDigit(_input.LA(1))}? ;
THERE : 'there' ;
THROUGH : 'through' ;
TIME : 'time' ;
TO : 'to' ;
TRACK : 'track' ;
TRANSMISSION : 'transmission' ;
TRUE : 'true' ;
TURN : 'turn' | 'turning' ;
TURNS : 'turns' ;
UNCHANGED : 'unchanged' ;
UNTIL : 'until' | 'till' | 'til' ;
UPPER : 'upper' ;
VECTOR : ('this' [ ]+ ('is' | 'will' [ ]+ 'be') [ ]+ ('a' [ ]+)?)? ('radar' [ ]+)? ('vector' | 'vectors') ;
VIA : 'via' ;
VOR : 'vor' ([ ]? 'tac')? | 'v-o-r' ('-t-a-c')? ; // V-O-R: as the order spells it (7110.65 2-5-2)
WAKE : 'caution' [, ]+ 'wake' [ ]+ 'turbulence' ;
WHEN : 'when' | 'once' | 'upon' ;
YOU_WILL : 'you' (['\u2019] 'll' | [ ]+ ('will' | 'should')) ;
YOUR : 'your' ;

// Words of the trade that are no part of an amended clearance here; they never pass for a name or a callsign.
NOT_OURS
    : 'squawk' | 'squawking'
    | 'ident' | 'say' | 'verify' | 'recycle' | 'transponder' | 'tune'
    | 'reset' | 'accelerate' | 'caution' | 'radar' | 'land' | 'takeoff'
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

R_RADIAL : 'r' '-' [0-9]+ ;
DECIMAL : [0-9]+ '.' [0-9]+ ;
NUMBER : [0-9]+ | [0-2] [0-9] ':' [0-5] [0-9] | [0-9] [0-9]? ',' [0-9] [0-9] [0-9] ;
NUMBER_FT : ([0-9]+ | [0-9] [0-9]? ',' [0-9] [0-9] [0-9]) 'ft' ;
FL_NUMBER : 'fl' '-'? [0-9]+ ;
AIRWAY_IDENT : [vjtq] '-'? [0-9]+ ;
WORD : ANY_LETTER+ ;
ALNUM : (ANY_LETTER | [0-9])+ ;
fragment ANY_LETTER : [\p{L}] ; // in one place: its 600 ranges take longer to load than all the rest

COMMA : [,;:] ;
STOP : '.' ;
BLANK : [ \t\r\n\u00A0\-\u2010\u2011]+ -> skip ;
STRANGE : . ;
