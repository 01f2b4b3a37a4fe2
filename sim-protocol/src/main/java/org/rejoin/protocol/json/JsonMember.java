package org.rejoin.protocol.json;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

import org.rejoin.protocol.yaml.YamlMembers;

import org.jspecify.annotations.Nullable;

/** The members that are numbers, with what each may be. */
enum JsonMember {
    VERSION("version", 1, Integer.MAX_VALUE),
    SEQUENCE("sequence", 0, Long.MAX_VALUE),
    TIME("time_s", 0, Double.MAX_VALUE),
    LATITUDE("latitude_deg", -90, 90),
    LONGITUDE("longitude_deg", -180, 360),
    ALTITUDE("altitude_ft", -2000, 100_000),
    PRESSURE_ALTITUDE("pressure_altitude_ft", -Double.MAX_VALUE, Double.MAX_VALUE),
    HEIGHT_ELLIPSOID("height_ellipsoid_ft", -Double.MAX_VALUE, Double.MAX_VALUE),
    HEIGHT_ABOVE_GROUND("height_above_ground_ft", -Double.MAX_VALUE, Double.MAX_VALUE),
    TRUE_HEADING("true_heading_deg", -180, 360),
    MAGNETIC_HEADING("magnetic_heading_deg", -180, 360),
    MAGNETIC_VARIATION("magnetic_variation_deg", -180, 180),
    TRUE_TRACK("true_track_deg", 0, 360),
    GROUND_SPEED("ground_speed_kt", 0, 2000),
    INDICATED_AIRSPEED("indicated_airspeed_kt", 0, 2000),
    TRUE_AIRSPEED("true_airspeed_kt", 0, 2000),
    VERTICAL_SPEED("vertical_speed_fpm", -30_000, 30_000),
    PITCH("pitch_deg", -90, 90),
    ROLL("roll_deg", -180, 180),
    WIND_FROM("wind_from_true_deg", 0, 360),
    WIND_SPEED("wind_speed_kt", 0, 2000);

    private static final Map<String, JsonMember> BY_NAME =
            Arrays.stream(values()).collect(Collectors.toUnmodifiableMap(JsonMember::member, m -> m));

    private static final JsonMember[][] BY_LENGTH = byLength();

    @SuppressWarnings("ImmutableEnumChecker") // never changed, and seen by nobody else
    private final byte[] octets;

    private final String member;
    private final double low;
    private final double high;

    JsonMember(String member, double low, double high) {
        this.octets = member.getBytes(StandardCharsets.US_ASCII);
        this.member = member;
        this.low = low;
        this.high = high;
    }

    String member() {
        return member;
    }

    /** Where its number is kept while one object is read. */
    @SuppressWarnings("EnumOrdinal") // never written anywhere
    int place() {
        return ordinal();
    }

    boolean allows(double value) {
        return value >= low && value <= high;
    }

    String expected() {
        return low == -Double.MAX_VALUE
                ? "a number"
                : high >= Integer.MAX_VALUE
                        ? "a number from " + YamlMembers.plain(low) + " up"
                        : "a number from " + YamlMembers.plain(low) + " to " + YamlMembers.plain(high);
    }

    static Optional<JsonMember> named(String name) {
        return Optional.ofNullable(BY_NAME.get(name));
    }

    /** The member whose name these octets are; null if there is none. */
    static @Nullable JsonMember named(byte[] text, int from, int to) {
        if (to - from >= BY_LENGTH.length) {
            return null;
        }
        for (JsonMember candidate : BY_LENGTH[to - from]) {
            if (Arrays.equals(candidate.octets, 0, candidate.octets.length, text, from, to)) {
                return candidate;
            }
        }
        return null;
    }

    private static JsonMember[][] byLength() {
        int longest =
                Arrays.stream(values()).mapToInt(m -> m.octets.length).max().orElseThrow();
        return IntStream.rangeClosed(0, longest)
                .mapToObj(length -> Arrays.stream(values())
                        .filter(m -> m.octets.length == length)
                        .toArray(JsonMember[]::new))
                .toArray(JsonMember[][]::new);
    }
}
