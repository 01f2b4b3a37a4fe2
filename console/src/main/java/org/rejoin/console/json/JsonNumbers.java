package org.rejoin.console.json;

import java.io.IOException;
import java.math.BigDecimal;
import java.math.RoundingMode;

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
     * A finite number with the digits of its unit, which the ending of its member's name tells: latitudes and
     * longitudes to a billionth of a degree, miles to 0.0001, feet to 0.1, all else to 0.01.
     */
    public static BigDecimal rounded(String name, double value) {
        int digits = name.endsWith("latitude_deg") || name.endsWith("longitude_deg")
                ? 9
                : name.endsWith("_nm") ? 4 : name.endsWith("_ft") ? 1 : 2;
        return rounded(value, digits);
    }

    /**
     * A finite number with so many digits after the point, rounded half even, never -0: for every text of ours that
     * must come out the same each time.
     */
    public static BigDecimal rounded(double value, int digits) {
        BigDecimal decimal = BigDecimal.valueOf(value).setScale(digits, RoundingMode.HALF_EVEN);
        return decimal.signum() == 0 ? BigDecimal.ZERO.setScale(digits) : decimal;
    }

    /** Writes a number with the digits of its unit as a member; {@code NaN} leaves the member out. */
    public static void write(JsonGenerator json, String name, double value) throws IOException {
        if (!Double.isNaN(value)) {
            json.writeNumberField(name, rounded(name, value));
        }
    }

    /** Writes a number with so many digits after the point as a member; {@code null} where it is {@code NaN}. */
    public static void orNull(JsonGenerator json, String name, double value, int digits) throws IOException {
        if (Double.isNaN(value)) {
            json.writeNullField(name);
        } else {
            json.writeNumberField(name, rounded(value, digits));
        }
    }

    /** Writes a finite number without needless zeros, with at most so many digits after the point, as a member. */
    public static void atMost(JsonGenerator json, String name, double value, int digits) throws IOException {
        json.writeNumberField(name, rounded(value, digits).doubleValue());
    }

    /**
     * Puts a number without needless zeros, with at most so many digits after the point, into an object; one that is
     * not finite is left out: JSON has no word for it.
     */
    public static void put(ObjectNode object, String name, double value, int digits) {
        if (Double.isFinite(value)) {
            object.put(name, rounded(value, digits).doubleValue());
        }
    }

    /** Writes a place on WGS 84 as two members, with a prefix before their names. */
    public static void place(JsonGenerator json, String prefix, Position place) throws IOException {
        write(json, prefix + "latitude_deg", place.latitudeDeg());
        write(json, prefix + "longitude_deg", place.longitudeDeg());
    }

    /**
     * Puts a place on WGS 84 as two members into an object, with at most so many digits of a degree after the point.
     */
    public static void place(ObjectNode object, String prefix, Position place, int digits) {
        put(object, prefix + "latitude_deg", place.latitudeDeg(), digits);
        put(object, prefix + "longitude_deg", place.longitudeDeg(), digits);
    }
}
