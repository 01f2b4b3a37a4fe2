package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What a clearance means, in the neutral form of the wordings ({@code wordings/README.md}): two clearances that mean the
 * same are equal.
 *
 * @param flown where the flight goes, in the order in which it is flown
 * @param rest everything else, sorted
 */
record Meaning(List<String> flown, List<String> rest) {

    private static final Set<String> FLOWN = Set.of(
            "heading",
            "present_heading",
            "runway_heading",
            "turn",
            "turn_by",
            "depart",
            "direct",
            "when_able",
            "radial",
            "way",
            "bearing",
            "arc",
            "arc_side",
            "until_radial",
            "until_dme",
            "until_fix",
            "until_level",
            "airway",
            "at",
            "from",
            "to",
            "offset",
            "after");

    private static final Pattern LEVEL = Pattern.compile("\\bFL(\\d+)");
    private static final Pattern FURTHER = Pattern.compile("expect=further clearance (?:at )?(\\d{4})");
    private static final Pattern COURSE = Pattern.compile("course=(\\w+)/(to|from)/(\\d+)");

    /** What the file of wordings says. */
    static Meaning of(String keysAndValues) {
        return of(Arrays.asList(keysAndValues.split(";")), true);
    }

    /** What the reader understood. */
    static Meaning of(Clearance clearance) {
        List<String> said = new ArrayList<>();
        clearance.callsign().ifPresent(callsign -> said.add("callsign=said"));
        clearance.instructions().forEach(each -> said.addAll(each.fold(new NeutralForm())));
        return of(said, false);
    }

    private static Meaning of(List<String> said, boolean written) {
        List<String> flown = new ArrayList<>();
        List<String> rest = new ArrayList<>();
        for (String each : said) {
            String one = each.trim();
            Matcher course = COURSE.matcher(one);
            if (course.matches()) {
                boolean inbound = course.group(2).equals("to");
                int degrees = Integer.parseInt(course.group(3)) + (inbound ? 180 : 0);
                flown.add("radial=" + course.group(1) + "/" + NeutralForm.degrees(degrees));
                flown.add(inbound ? "way=inbound" : "way=outbound");
            } else if (FLOWN.contains(key(one))) {
                flown.add(LEVEL.matcher(one).replaceAll(level -> level.group(1) + "00"));
            } else if (one.startsWith("expect=") || one.startsWith("report=")) {
                rest.add(one.toLowerCase(Locale.ROOT).replaceAll("\\s+", " "));
            } else {
                rest.add(LEVEL.matcher(one).replaceAll(level -> level.group(1) + "00"));
            }
        }
        if (rest.stream().noneMatch(one -> one.startsWith("hold="))) {
            rest.replaceAll(one -> FURTHER.matcher(one).replaceAll("efc=$1"));
        }
        // The line that the altitude is held to says "established" with it.
        boolean named = rest.stream()
                .anyMatch(one -> one.startsWith("altitude_until=") && !one.equals("altitude_until=established"));
        if (named) {
            rest.remove("altitude_until=established");
        }
        return new Meaning(
                written ? List.copyOf(flown) : onceEach(flown, rest),
                rest.stream().distinct().sorted().toList());
    }

    /** What one instruction repeats of the one before it, or of the limit, is said once. */
    private static List<String> onceEach(List<String> flown, List<String> rest) {
        List<String> once = new ArrayList<>();
        for (int i = 0; i < flown.size(); i++) {
            String one = flown.get(i);
            String value = one.substring(one.indexOf('=') + 1);
            boolean joinedWhereItIs = one.startsWith("at=")
                    && once.size() > 1
                    && (once.get(once.size() - 2).equals("direct=" + value)
                            || once.get(once.size() - 2).equals("to=" + value));
            boolean sameAirway =
                    one.startsWith("airway=") && !once.isEmpty() && last(once).equals(one);
            boolean sameRadial =
                    one.startsWith("radial=") && !once.isEmpty() && last(once).equals("until_" + one);
            boolean toTheLimit = one.startsWith("to=") && i == flown.size() - 1 && rest.contains("limit=" + value);
            if (!joinedWhereItIs && !sameAirway && !sameRadial && !toTheLimit) {
                once.add(one);
            }
        }
        return List.copyOf(once);
    }

    private static String last(List<String> list) {
        return list.get(list.size() - 1);
    }

    private static String key(String one) {
        return one.substring(0, one.indexOf('='));
    }

    @Override
    public String toString() {
        return String.join(";", flown) + " | " + String.join(";", rest);
    }
}
