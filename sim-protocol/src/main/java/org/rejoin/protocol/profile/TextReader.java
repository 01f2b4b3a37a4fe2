package org.rejoin.protocol.profile;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.Decoded.Malformed;
import org.rejoin.protocol.PlainText;
import org.rejoin.protocol.StateSink;

/** Reads lines of text. */
record TextReader(String name, List<Value> values, Layout.Text layout) implements ProfileDecoder.RecordReader {

    /** More than any real datagram holds; what follows is not read. */
    private static final int MOST_LINES = 256;

    @Override
    public boolean recognises(Datagram datagram) {
        List<String> lines = lines(datagram);
        return !lines.isEmpty() && recognises(lines.get(0));
    }

    /**
     * Whether a line is of this message. Any line of words has as many fields as it likes, and any object any names: without
     * numbers for the position it is not ours, and where there is no position, without one for each value.
     */
    private boolean recognises(String line) {
        if (fault(line).isPresent()) {
            return false;
        }
        TextRecord record = TextRecord.of(line, layout);
        boolean position = values.stream().anyMatch(value -> value.is().isPosition());
        return values.stream()
                .filter(value -> !position || value.is().isPosition())
                .allMatch(value -> isThere(value, record.field(value.at(), value.key())));
    }

    private boolean isThere(Value value, String field) {
        return Double.isFinite(value.is().isFlag() ? flag(field) : TextRecord.number(field, layout.decimal()));
    }

    @Override
    public List<Reading> read(Datagram datagram, StateSink sink) {
        List<Reading> readings = new ArrayList<>();
        for (String line : lines(datagram)) {
            Optional<Malformed> fault = fault(line);
            if (fault.isPresent()) {
                sink.other(fault.get());
            } else {
                readings.add(read(TextRecord.of(line, layout), sink));
            }
        }
        if (datagram.length() == 0) {
            sink.other(new Malformed(0, "nothing", "a line of \"" + name + "\""));
        }
        return readings;
    }

    @Override
    public List<Datagram> records(Datagram datagram) {
        List<String> lines = lines(datagram);
        return lines.size() < 2
                ? List.of(datagram)
                : lines.stream()
                        .map(line -> Datagram.of(
                                datagram.receivedMicros(), datagram.sender(), line.getBytes(StandardCharsets.UTF_8)))
                        .toList();
    }

    private List<String> lines(Datagram datagram) {
        String text = StandardCharsets.UTF_8
                .decode(datagram.payload().duplicate())
                .toString()
                .replace('\0', '\n');
        if (layout.numbers()) {
            return text.isBlank() ? List.of() : List.of(text.strip());
        }
        List<String> lines =
                text.lines().filter(line -> !line.isBlank()).limit(MOST_LINES).toList();
        // One object may take several lines; then not every line is one.
        boolean one = layout.json()
                && (lines.size() < 2
                        || lines.stream().anyMatch(line -> !line.stripLeading().startsWith("{")));
        return one && JsonMembers.of(text).isPresent() ? List.of(text.strip()) : lines;
    }

    private Optional<Malformed> fault(String line) {
        if (layout.json()) {
            return JsonMembers.of(line).isPresent()
                    ? Optional.empty()
                    : Optional.of(new Malformed(0, PlainText.of(line, 40), "a JSON object"));
        }
        if (!line.startsWith(layout.startsWith())) {
            return Optional.of(
                    new Malformed(0, PlainText.of(line, 40), "a line that starts with \"" + layout.startsWith() + '"'));
        }
        int fields = TextRecord.fields(line, layout).size();
        if (layout.fields().isPresent() && fields != layout.fields().getAsInt()) {
            return Optional.of(
                    new Malformed(0, fields + " fields", layout.fields().getAsInt() + " fields"));
        }
        return Optional.empty();
    }

    private Reading read(TextRecord record, StateSink sink) {
        Reading reading = new Reading();
        for (Value value : values) {
            String field = record.field(value.at(), value.key());
            if (field.isEmpty()) {
                continue;
            }
            double raw = value.is().isFlag()
                    ? flag(field)
                    : TextRecord.number(field, layout.decimal()) + minutes(value, field, record);
            if (Double.isNaN(raw)) {
                sink.other(new Malformed(0, value.is().text() + " " + PlainText.of(field, 24), expected(value)));
            } else {
                reading.put(value.is(), signed(value, value.read(raw), record));
            }
        }
        return reading;
    }

    private static String expected(Value value) {
        return value.minutes().isEmpty()
                ? "a number"
                : "whole degrees, and minutes below 60 in field "
                        + value.minutes().getAsInt();
    }

    /** What a field of minutes adds to whole degrees; not a number where it holds none, or 60 or more. */
    private double minutes(Value value, String degrees, TextRecord record) {
        if (value.minutes().isEmpty()) {
            return 0;
        }
        double whole = TextRecord.number(degrees, layout.decimal());
        double minutes = TextRecord.number(record.field(value.minutes().getAsInt(), ""), layout.decimal());
        // -0 degrees and 30 minutes are south of the equator.
        double share = degrees.startsWith("-") ? -minutes / 60 : minutes / 60;
        return whole == Math.rint(whole) && minutes >= 0 && minutes < 60 ? share : Double.NaN;
    }

    private double flag(String field) {
        return switch (field) {
            case "true" -> 1;
            case "false" -> 0;
            default -> TextRecord.number(field, layout.decimal());
        };
    }

    private static double signed(Value value, double magnitude, TextRecord record) {
        if (value.hemisphere().isEmpty()) {
            return magnitude;
        }
        Value.Hemisphere hemisphere = value.hemisphere().get();
        String letter = record.field(hemisphere.at(), hemisphere.key());
        if (letter.isEmpty()) {
            return Double.NaN;
        }
        return hemisphere.negative().contains(letter) ? -magnitude : magnitude;
    }
}
