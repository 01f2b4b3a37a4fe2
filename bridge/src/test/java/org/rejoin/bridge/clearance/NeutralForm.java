package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import org.rejoin.bridge.chart.Waypoint;

/** An instruction in the words of {@code wordings/README.md}. */
final class NeutralForm implements Instruction.Visitor<List<String>> {

    /** A point by radial and distance carries both in its ident. */
    private static final Pattern RADIAL_DISTANCE = Pattern.compile("([A-Z]{2,3})(\\d{3})(\\d{3})");

    /** Three digits; north is 360. */
    static String degrees(double deg) {
        int whole = Math.floorMod(Math.round(deg), 360);
        return String.format(Locale.ROOT, "%03d", whole == 0 ? 360 : whole);
    }

    private static String number(double value) {
        return value == Math.rint(value) ? String.valueOf((long) value) : String.valueOf(value);
    }

    private static String point(Waypoint point) {
        Matcher polar = RADIAL_DISTANCE.matcher(point.ident());
        return polar.matches()
                ? polar.group(1) + "/" + polar.group(2) + "/" + Integer.parseInt(polar.group(3))
                : point.ident();
    }

    private static String place(Waypoint point, Optional<Instruction.Away> away) {
        return point(point)
                + away.map(said -> "/" + said.compass() + "/" + number(said.distanceNm()))
                        .orElse("");
    }

    private static void turn(Instruction.TurnDirection direction, List<String> into) {
        switch (direction) {
            case LEFT -> into.add("turn=left");
            case RIGHT -> into.add("turn=right");
            case SHORTEST -> {}
        }
    }

    private static void way(Instruction.Sense sense, List<String> into) {
        switch (sense) {
            case INBOUND -> into.add("way=inbound");
            case OUTBOUND -> into.add("way=outbound");
            case UNSAID -> {}
        }
    }

    private static void until(Optional<Instruction.Until> until, List<String> into) {
        until.map(NeutralForm::end).ifPresent(into::add);
    }

    private static String end(Instruction.Until until) {
        if (until instanceof Instruction.Until.AtRadial at) {
            return "until_radial=" + at.station().ident() + "/"
                    + degrees(at.radial().deg());
        }
        if (until instanceof Instruction.Until.AtDistance at) {
            return "until_dme=" + at.station().ident() + "/" + number(at.distanceNm());
        }
        if (until instanceof Instruction.Until.AtFix at) {
            return "until_fix=" + point(at.fix());
        }
        if (until instanceof Instruction.Until.AtAirway at) {
            return "airway=" + at.airway();
        }
        throw new AssertionError("no word of the neutral form for " + until);
    }

    @Override
    public List<String> flyHeading(Instruction.FlyHeading said) {
        List<String> words = new ArrayList<>();
        turn(said.direction(), words);
        words.add("heading=" + degrees(said.heading().deg()));
        return words;
    }

    @Override
    public List<String> turnBy(Instruction.TurnBy said) {
        return List.of("turn_by=" + said.direction().name().toLowerCase(Locale.ROOT) + "/" + number(said.degrees()));
    }

    @Override
    public List<String> flyPresentHeading(Instruction.FlyPresentHeading said) {
        return List.of("present_heading=yes");
    }

    @Override
    public List<String> flyRunwayHeading(Instruction.FlyRunwayHeading said) {
        return List.of("runway_heading=yes");
    }

    @Override
    public List<String> interceptAirway(Instruction.InterceptAirway said) {
        return List.of("airway=" + said.airway());
    }

    @Override
    public List<String> interceptRadial(Instruction.InterceptRadial said) {
        List<String> words = new ArrayList<>();
        words.add(
                "radial=" + said.station().ident() + "/" + degrees(said.radial().deg()));
        way(said.sense(), words);
        until(said.until(), words);
        return words;
    }

    @Override
    public List<String> interceptBearing(Instruction.InterceptBearing said) {
        List<String> words = new ArrayList<>();
        words.add(
                said.sense() == Instruction.Sense.INBOUND
                        ? "bearing=" + said.station().ident() + "/to/"
                                + degrees(said.bearing().reciprocal().deg())
                        : "bearing=" + said.station().ident() + "/from/"
                                + degrees(said.bearing().deg()));
        until(said.until(), words);
        return words;
    }

    @Override
    public List<String> interceptArc(Instruction.InterceptArc said) {
        List<String> words = new ArrayList<>();
        String way = switch (said.direction()) {
            case CLOCKWISE -> "clockwise";
            case COUNTERCLOCKWISE -> "counterclockwise";
            case UNSAID -> said.bound().orElse("unsaid");
        };
        words.add("arc=" + said.station().ident() + "/" + number(said.distanceNm()) + "/" + way);
        said.side().ifPresent(side -> words.add("arc_side=" + side));
        until(said.until(), words);
        return words;
    }

    @Override
    public List<String> joinAirway(Instruction.JoinAirway said) {
        List<String> words = new ArrayList<>();
        words.add("airway=" + said.airway());
        said.at()
                .ifPresent(at ->
                        words.add(said.away().isPresent() ? "from=" + place(at, said.away()) : "at=" + point(at)));
        said.to().ifPresent(to -> words.add("to=" + point(to)));
        return words;
    }

    @Override
    public List<String> direct(Instruction.Direct said) {
        List<String> words = new ArrayList<>();
        turn(said.turn(), words);
        if (said.whenAble()) {
            words.add("when_able=yes");
        }
        words.add("direct=" + point(said.to()));
        return words;
    }

    @Override
    public List<String> depart(Instruction.Depart said) {
        if (said.asSaidNext()) {
            return List.of("after=" + point(said.fix()));
        }
        String how = said.heading()
                .map(heading -> degrees(heading.deg()))
                .orElseGet(() -> said.line()
                        .orElseThrow()
                        .line(
                                radial -> "radial " + degrees(radial.radial().deg()),
                                bearing ->
                                        "bearing " + degrees(bearing.bearing().deg()),
                                arc -> "arc"));
        List<String> words = new ArrayList<>();
        turn(said.turn(), words);
        words.add("depart=" + point(said.fix()) + "/" + how);
        return words;
    }

    @Override
    public List<String> clearedTo(Instruction.ClearedTo said) {
        return List.of("limit=" + point(said.limit()));
    }

    @Override
    public List<String> onward(Instruction.Onward said) {
        return List.of("then=as_filed");
    }

    @Override
    public List<String> maintain(Instruction.Maintain said) {
        List<String> words = new ArrayList<>();
        words.add("altitude=" + number(said.feet()));
        switch (said.vertical()) {
            case CLIMB -> words.add("vertical=climb");
            case DESCEND -> words.add("vertical=descend");
            case UNSAID -> {}
        }
        switch (said.when()) {
            case PILOTS_DISCRETION, WHEN_READY -> words.add("discretion=yes");
            case NOW -> {}
        }
        if (said.untilEstablished()) {
            words.add("altitude_until=established");
        }
        said.levelBy().ifPresent(fix -> words.add("level_by=" + point(fix)));
        return words;
    }

    @Override
    public List<String> crossAt(Instruction.CrossAt said) {
        String bound = switch (said.bound()) {
            case AT -> "=";
            case AT_OR_ABOVE -> ">=";
            case AT_OR_BELOW -> "<=";
        };
        return List.of("cross=" + place(said.fix(), said.before()) + " " + bound + number(said.feet()));
    }

    @Override
    public List<String> hold(Instruction.Hold said) {
        List<String> words = new ArrayList<>();
        words.add("hold=" + point(said.fix()));
        said.compass().ifPresent(compass -> words.add("hold_dir=" + compass));
        said.line().ifPresent(line -> words.add("hold_on=" + line(line)));
        said.legMinutes().ifPresent(minutes -> words.add("leg=" + number(minutes) + "min"));
        said.legNm().ifPresent(miles -> words.add("leg=" + number(miles) + "nm"));
        if (said.turns() == Instruction.TurnDirection.LEFT) {
            words.add("turns=left");
        }
        said.expectFurtherClearance().ifPresent(time -> words.add("efc=" + time));
        if (said.asPublished()) {
            words.add("published=yes");
        }
        if (said.once()) {
            words.add("circuits=1");
        }
        return words;
    }

    private static String line(Instruction.HoldLine line) {
        if (line instanceof Instruction.HoldLine.OnRadial on) {
            return "radial " + on.station().ident() + "/" + degrees(on.radial().deg());
        }
        if (line instanceof Instruction.HoldLine.OnBearing on) {
            return "bearing " + on.station().ident() + "/"
                    + degrees(on.bearing().deg());
        }
        if (line instanceof Instruction.HoldLine.OnCourse on) {
            return "inbound " + degrees(on.inbound().deg());
        }
        if (line instanceof Instruction.HoldLine.OnAirway on) {
            return "airway " + on.airway();
        }
        throw new AssertionError("no word of the neutral form for " + line);
    }

    @Override
    public List<String> report(Instruction.Report said) {
        return List.of("report=" + said.what());
    }

    @Override
    public List<String> expect(Instruction.Expect said) {
        return List.of("expect=" + said.what());
    }

    @Override
    public List<String> maintainSpeed(Instruction.MaintainSpeed said) {
        String bound = switch (said.bound()) {
            case EXACTLY -> "=";
            case OR_GREATER -> ">=";
            case OR_LESS -> "<=";
        };
        return List.of("speed=" + bound + number(said.knots()));
    }

    @Override
    public List<String> maintainPresentSpeed(Instruction.MaintainPresentSpeed said) {
        return List.of("speed=present");
    }

    @Override
    public List<String> resumeNormalSpeed(Instruction.ResumeNormalSpeed said) {
        return List.of("speed=normal");
    }

    @Override
    public List<String> cancel(Instruction.Cancel said) {
        return List.of("cancel=last");
    }

    private static String line(Instruction.Until until) {
        return end(until).replaceFirst("^[a-z_]+=", "");
    }

    private static String when(When when) {
        if (when instanceof When.AtLine at) {
            return at.line() instanceof Instruction.Until.AtDistance distance
                    ? distance.station().ident() + "/dme/" + number(distance.distanceNm())
                    : line(at.line());
        }
        if (when instanceof When.Near near) {
            return point(near.fix()) + (near.before() ? "/before/" : "/after/") + number(near.distanceNm());
        }
        if (when instanceof When.AtTime at) {
            return at.time();
        }
        if (when instanceof When.Established established) {
            return established.line().map(NeutralForm::line).orElse("established");
        }
        return number(((When.AtLevel) when).feet());
    }

    private static String limit(Instruction.MaintainSpeed.Limit bound) {
        return switch (bound) {
            case EXACTLY -> "=";
            case OR_GREATER -> ">=";
            case OR_LESS -> "<=";
        };
    }

    private static String vertical(Instruction.Maintain.Vertical vertical) {
        return "vertical=" + vertical.name().toLowerCase(Locale.ROOT);
    }

    @Override
    public List<String> noted(Noted said) {
        if (said instanceof Noted.After after) {
            // "Then" says the order and no place of its own.
            List<String> words = new ArrayList<>(after.order() ? List.of() : List.of("after=" + when(after.when())));
            after.then().forEach(each -> words.addAll(each.fold(this)));
            return words;
        }
        if (said instanceof Noted.Until until) {
            if (until.when() instanceof When.Advised) {
                // Any altitude holds until ATC says more.
                return List.of();
            }
            return List.of(
                    switch (until.what()) {
                        case ALTITUDE -> "altitude_until=" + when(until.when());
                        case SPEED -> "speed_until=" + when(until.when());
                        case HEADING, OFFSET -> ending(until.when());
                    });
        }
        if (said instanceof Noted.EstablishedOn on) {
            return List.of("altitude_until=" + line(on.line()));
        }
        if (said instanceof Noted.LevelBy by) {
            return List.of("level_by=" + when(by.when()));
        }
        if (said instanceof Noted.Rate rate) {
            return List.of("rate=" + limit(rate.bound()) + number(rate.feetPerMinute()));
        }
        if (said instanceof Noted.Bounded limit) {
            boolean lowest = limit.bound() == Instruction.CrossAt.Bound.AT_OR_ABOVE;
            return List.of("altitude_bound=" + (lowest ? ">=" : "<=") + number(limit.feet()));
        }
        if (said instanceof Noted.Block block) {
            List<String> words =
                    new ArrayList<>(List.of("block=" + number(block.lowestFt()) + "-" + number(block.highestFt())));
            if (block.vertical() != Instruction.Maintain.Vertical.UNSAID) {
                words.add(vertical(block.vertical()));
            }
            return words;
        }
        if (said instanceof Noted.Cruise cruise) {
            return List.of("altitude=" + number(cruise.feet()), "vertical=cruise");
        }
        if (said instanceof Noted.CrossLevel cross) {
            String bound = switch (cross.bound()) {
                case AT -> "=";
                case AT_OR_ABOVE -> ">=";
                case AT_OR_BELOW -> "<=";
            };
            return List.of("cross=" + when(cross.where()) + " " + bound + number(cross.feet()));
        }
        if (said instanceof Noted.CrossTime cross) {
            String bound = switch (cross.bound()) {
                case AT -> "=";
                case OR_LATER -> ">=";
                case OR_EARLIER -> "<=";
            };
            return List.of("cross_time=" + when(cross.where()) + " " + bound + cross.time());
        }
        if (said instanceof Noted.CrossSpeed cross) {
            return List.of("cross_speed=" + when(cross.where()) + " " + limit(cross.bound()) + number(cross.knots()));
        }
        if (said instanceof Noted.SpeedChange by) {
            return List.of("speed=" + (by.knots() > 0 ? "+" : "") + number(by.knots()));
        }
        if (said instanceof Noted.ExtremeSpeed speed) {
            return List.of("speed=" + (speed.fastest() ? "maximum" : "minimum"));
        }
        if (said instanceof Noted.Offset offset) {
            return List.of("offset=" + offset.airway().orElse("route") + "/"
                    + offset.side().name().toLowerCase(Locale.ROOT) + "/" + number(offset.distanceNm()));
        }
        if (said instanceof Noted.Lifted lifted) {
            return List.of("cancel=" + lifted.what().name().toLowerCase(Locale.ROOT));
        }
        if (said instanceof Noted.LeftOut || said instanceof Noted.JoinedWithin || said instanceof Noted.RouteBy) {
            return List.of("said=" + said.words());
        }
        if (said instanceof Noted.HoldUntil hold) {
            return List.of("hold_until=" + hold.time());
        }
        if (said instanceof Noted.FurtherClearance further) {
            return List.of("efc=" + further.time());
        }
        if (said instanceof Noted.FurtherClearanceIn further) {
            return List.of("efc=in " + further.minutes() + "min");
        }
        throw new AssertionError("no word of the neutral form for " + said);
    }

    private static String ending(When when) {
        if (when instanceof When.AtLine at) {
            return end(at.line());
        }
        return "until_level=" + when(when);
    }
}
