package org.rejoin.console.json;

import java.io.IOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.OptionalDouble;

import org.rejoin.bridge.geo.Position;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.databind.node.ObjectNode;

/**
 * Numbers as they stand in our JSON and tables: rounded half even, never -0, so that the same flight gives the same bytes
 * on every machine. The ending of a member's name is its unit.
 */
public final class JsonNumbers {

    private JsonNumbers() {}

    /**
     * A number with the digits of its unit.
     *
     * @param name of the member; its ending tells the unit and so the digits
     * @param value finite
     * @return latitudes and longitudes to a billionth of a degree, miles to 0.0001, feet to 0.1, all else to 0.01
     */
    public static BigDecimal rounded(String name, double value) {
        int digits = name.endsWith("latitude_deg") || name.endsWith("longitude_deg")
                ? 9
                : name.endsWith("_nm") ? 4 : name.endsWith("_ft") ? 1 : 2;
        return rounded(value, digits);
    }

    /**
     * A number with so many digits, for every text of ours that must come out the same each time.
     *
     * @param value finite
     * @param digits after the point, 0 or more
     * @return rounded half even; never -0
     */
    public static BigDecimal rounded(double value, int digits) {
        BigDecimal decimal = BigDecimal.valueOf(value).setScale(digits, RoundingMode.HALF_EVEN);
        return decimal.signum() == 0 ? BigDecimal.ZERO.setScale(digits) : decimal;
    }

    /**
     * Writes a number with the digits of its unit as a member.
     *
     * @param json inside an object
     * @param name of the member, with its unit
     * @param value {@code NaN} to leave the member out
     */
    public static void write(JsonGenerator json, String name, double value) throws IOException {
        if (!Double.isNaN(value)) {
            json.writeNumberField(name, rounded(name, value));
        }
    }

    /**
     * Writes a number with so many digits as a member.
     *
     * @param json inside an object
     * @param name of the member
     * @param value empty or {@code NaN} to write {@code null}
     * @param digits after the point
     */
    public static void orNull(JsonGenerator json, String name, OptionalDouble value, int digits) throws IOException {
        if (value.isEmpty() || Double.isNaN(value.getAsDouble())) {
            json.writeNullField(name);
        } else {
            json.writeNumberField(name, rounded(value.getAsDouble(), digits));
        }
    }

    /**
     * Writes a number without needless zeros as a member.
     *
     * @param json inside an object
     * @param name of the member
     * @param value finite
     * @param digits after the point, at most
     */
    public static void atMost(JsonGenerator json, String name, double value, int digits) throws IOException {
        json.writeNumberField(name, rounded(value, digits).doubleValue());
    }

    /**
     * Puts a number without needless zeros into an object.
     *
     * @param object to put it into
     * @param name of the member
     * @param value not finite to leave the member out: JSON has no word for it
     * @param digits after the point, at most
     */
    public static void put(ObjectNode object, String name, double value, int digits) {
        if (Double.isFinite(value)) {
            object.put(name, rounded(value, digits).doubleValue());
        }
    }

    /**
     * Writes a place as two members.
     *
     * @param json inside an object
     * @param prefix before their names; may be empty
     * @param place WGS 84
     */
    public static void place(JsonGenerator json, String prefix, Position place) throws IOException {
        write(json, prefix + "latitude_deg", place.latitudeDeg());
        write(json, prefix + "longitude_deg", place.longitudeDeg());
    }

    /**
     * Puts a place as two members into an object.
     *
     * @param object to put it into
     * @param prefix before their names; may be empty
     * @param place WGS 84
     * @param digits of a degree after the point, at most
     */
    public static void place(ObjectNode object, String prefix, Position place, int digits) {
        put(object, prefix + "latitude_deg", place.latitudeDeg(), digits);
        put(object, prefix + "longitude_deg", place.longitudeDeg(), digits);
    }
}
