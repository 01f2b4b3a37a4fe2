package org.rejoin.bridge.learn;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;

import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.profile.Layout;
import org.rejoin.protocol.profile.TextField;
import org.rejoin.protocol.profile.Value;

/** Finds how lines of text are parted into fields. */
final class TextFraming {

    private static final double PRINTABLE = 0.95;
    private static final int SAMPLED_LINES = 40;
    private static final int MOST_KINDS = 3;
    private static final double MOSTLY = 0.9;

    private TextFraming() {}

    private record Line(double timeS, String text) {}

    static boolean isText(List<Datagram> datagrams) {
        long printable = 0;
        long all = 0;
        for (Datagram datagram : datagrams) {
            for (int i = 0; i < datagram.length(); i++) {
                int octet = datagram.payload().get(i) & 0xFF;
                printable += (octet >= 0x20 && octet < 0x7F) || octet == '\r' || octet == '\n' || octet == '\t' ? 1 : 0;
                all++;
            }
        }
        return all > 0 && printable > PRINTABLE * all;
    }

    /** Every way that is worth a try, the likeliest first. */
    static List<Frame> frames(List<Datagram> datagrams) {
        List<Line> objects = objects(datagrams);
        Layout.Text json = new Layout.Text("", ",", Layout.Text.JSON, '.', OptionalInt.empty());
        if (objects.size() > MOSTLY * datagrams.size()
                && TextField.of(objects.get(0).text, json).size() > 1) {
            List<Frame> frames = new ArrayList<>(List.of(frame(json, objects)));
            List<List<Line>> kinds = kinds(objects, object -> namesOf(object, json));
            kinds.stream()
                    .filter(kind -> kinds.size() > 1 && kind.size() > objects.size() / 10)
                    .limit(MOST_KINDS)
                    .forEach(kind -> frames.add(frame(json, kind)));
            return frames;
        }
        List<Frame> frames = new ArrayList<>();
        kinds(lines(datagrams), TextFraming::firstWord).stream()
                .limit(MOST_KINDS)
                .forEach(kind -> layout(kind).ifPresent(layout -> frames.add(frame(layout, kind))));
        inOrder(datagrams, frames).ifPresent(frames::add);
        return frames;
    }

    /** By what tells kinds apart; the kind with most of them first. */
    private static List<List<Line>> kinds(List<Line> lines, UnaryOperator<String> sign) {
        Map<String, List<Line>> kinds = new LinkedHashMap<>();
        for (Line line : lines) {
            kinds.computeIfAbsent(sign.apply(line.text), k -> new ArrayList<>()).add(line);
        }
        return kinds.values().stream()
                .sorted(Comparator.comparingInt((List<Line> kind) -> kind.size())
                        .reversed())
                .toList();
    }

    /** The numbers of each datagram in their order, if that makes more of them: tags, units behind numbers, several lines. */
    private static Optional<Frame> inOrder(List<Datagram> datagrams, List<Frame> parted) {
        Optional<Layout.Text> first = parted.stream()
                .findFirst()
                .flatMap(frame -> frame.layout().fold(Optional::of, binary -> Optional.empty()));
        Layout.Text layout = new Layout.Text(
                "", Layout.Text.NUMBERS, "", first.map(Layout.Text::decimal).orElse('.'), OptionalInt.empty());
        double start = datagrams.get(0).receivedS();
        List<Line> all = datagrams.stream()
                .map(datagram ->
                        new Line(datagram.receivedS() - start, text(datagram).strip()))
                .filter(line -> !line.text.isEmpty())
                .toList();
        if (all.isEmpty()) {
            return Optional.empty();
        }
        List<Line> whole = kinds(all, TextFraming::firstWord).get(0);
        List<Line> some = sample(whole);
        boolean more = numbers(layout, some)
                > first.map(each -> numbers(each, sample(lines(datagrams)))).orElse(0.0) + 1;
        return more ? Optional.of(frame(completed(layout, whole), whole)) : Optional.empty();
    }

    private static List<Line> sample(List<Line> lines) {
        List<Line> sample = new ArrayList<>();
        int step = Math.max(1, lines.size() / SAMPLED_LINES);
        for (int i = 0; i < lines.size(); i += step) {
            sample.add(lines.get(i));
        }
        return sample;
    }

    private static String namesOf(String object, Layout.Text json) {
        return TextField.of(object, json).stream().map(TextField::key).sorted().collect(Collectors.joining(","));
    }

    private static List<Line> objects(List<Datagram> datagrams) {
        double start = datagrams.get(0).receivedS();
        List<Line> objects = new ArrayList<>();
        for (Datagram datagram : datagrams) {
            String text = text(datagram).strip();
            if (text.startsWith("{")) {
                boolean one = text.lines()
                        .anyMatch(
                                line -> !line.isBlank() && !line.stripLeading().startsWith("{"));
                (one ? List.of(text) : text.lines().toList())
                        .forEach(object -> objects.add(new Line(datagram.receivedS() - start, object)));
            }
        }
        return objects;
    }

    private static List<Line> lines(List<Datagram> datagrams) {
        double start = datagrams.get(0).receivedS();
        List<Line> lines = new ArrayList<>();
        for (Datagram datagram : datagrams) {
            text(datagram)
                    .lines()
                    .filter(line -> !line.isBlank())
                    .forEach(line -> lines.add(new Line(datagram.receivedS() - start, line)));
        }
        return lines;
    }

    private static String text(Datagram datagram) {
        return StandardCharsets.UTF_8
                .decode(datagram.payload().duplicate())
                .toString()
                .replace('\0', '\n');
    }

    /** Letters in front, which tell kinds of lines apart; a line that begins with a number has none. */
    private static String firstWord(String line) {
        int end = 0;
        while (end < line.length()
                && (Character.isLetter(line.charAt(end)) || "$!#@_".indexOf(line.charAt(end)) >= 0)) {
            end++;
        }
        return line.substring(0, end);
    }

    /** The layout that leaves the most numbers and the fewest scraps. */
    private static Optional<Layout.Text> layout(List<Line> lines) {
        List<Line> sample = sample(lines);
        Layout.Text best = null;
        double bestScore = 1;
        for (String separator : separators(sample)) {
            for (String keyValue : List.of("", "=", ":")) {
                for (char decimal : new char[] {'.', ','}) {
                    if (separator.equals(keyValue) || separator.equals(String.valueOf(decimal))) {
                        continue;
                    }
                    Layout.Text layout = new Layout.Text("", separator, keyValue, decimal, OptionalInt.empty());
                    double score = score(layout, sample);
                    if (score > bestScore + 1e-9) {
                        bestScore = score;
                        best = layout;
                    }
                }
            }
        }
        return best == null ? Optional.empty() : Optional.of(completed(best, lines));
    }

    /** Numbers in a line, in the mean. */
    private static double numbers(Layout.Text layout, List<Line> lines) {
        return lines.stream()
                .mapToLong(line -> TextField.of(line.text, layout).stream()
                        .filter(field -> Double.isFinite(field.number(layout.decimal())))
                        .count())
                .average()
                .orElse(0);
    }

    private static Set<String> separators(List<Line> lines) {
        Set<String> separators = new LinkedHashSet<>(List.of(",", ";", "\t", "|", Layout.Text.BLANK));
        for (Line line : lines) {
            StringBuilder run = new StringBuilder();
            for (char c : (line.text + "0").toCharArray()) {
                if (!Character.isLetterOrDigit(c) && "+-._ \t\"'\r\n".indexOf(c) < 0) {
                    run.append(c);
                } else if (run.length() > 0) {
                    separators.add(run.toString());
                    separators.add(run.substring(0, 1));
                    run.setLength(0);
                }
            }
        }
        return separators;
    }

    private static double score(Layout.Text layout, List<Line> lines) {
        double numbers = 0;
        double scraps = 0;
        Map<Integer, Integer> counts = new HashMap<>();
        for (Line line : lines) {
            int found = 0;
            List<TextField> fields = TextField.of(line.text, layout);
            for (TextField field : fields) {
                if (layout.keyed() && !isName(field.key())) {
                    scraps++;
                } else if (Double.isNaN(field.number(layout.decimal()))) {
                    boolean word = field.text().chars().allMatch(Character::isLetter);
                    scraps += word ? 0.1 : 1;
                } else {
                    found++;
                }
            }
            numbers += found;
            counts.merge(fields.size(), 1, Integer::sum);
        }
        double steady = counts.values().stream().mapToInt(n -> n).max().orElse(0) / (double) lines.size();
        double pure = numbers / Math.max(1, numbers + scraps);
        return numbers / lines.size() * pure * pure * (layout.keyed() ? 1.01 : 1) * (0.5 + steady / 2);
    }

    private static boolean isName(String key) {
        return !key.isEmpty()
                && !Character.isDigit(key.charAt(0))
                && key.chars().allMatch(c -> Character.isLetterOrDigit(c) || " _-.()[]\"'".indexOf(c) >= 0);
    }

    private static Layout.Text completed(Layout.Text layout, List<Line> lines) {
        List<String> starts = new ArrayList<>();
        Map<Integer, Integer> counts = new HashMap<>();
        Layout.Text byNumber = new Layout.Text("", layout.separator(), "", layout.decimal(), OptionalInt.empty());
        for (Line line : lines) {
            List<TextField> fields = TextField.of(line.text, byNumber);
            counts.merge(fields.size(), 1, Integer::sum);
            String first = fields.isEmpty() ? "" : fields.get(0).text();
            if (layout.numbers()) {
                String before = line.text.substring(0, Math.max(0, line.text.indexOf(first)));
                starts.add(before.lines().findFirst().orElse(""));
                continue;
            }
            boolean plain = !first.isEmpty()
                    && Double.isNaN(fields.get(0).number(layout.decimal()))
                    && (!layout.keyed() || !first.contains(layout.keyValue()));
            starts.add(plain ? first : "");
        }
        String start = starts.get(0);
        boolean common = lines.stream().allMatch(line -> line.text.startsWith(start))
                && starts.stream().allMatch(start::equals);
        OptionalInt count = counts.size() == 1 && !layout.keyed()
                ? OptionalInt.of(counts.keySet().iterator().next())
                : OptionalInt.empty();
        return new Layout.Text(common ? start : "", layout.separator(), layout.keyValue(), layout.decimal(), count);
    }

    private static Frame frame(Layout.Text layout, List<Line> lines) {
        List<double[]> times = new ArrayList<>();
        Map<TextField, List<double[]>> numbers = new LinkedHashMap<>();
        Map<TextField, Set<String>> words = new LinkedHashMap<>();
        for (Line line : lines) {
            double timeS = line.timeS;
            times.add(new double[] {timeS});
            for (TextField field : TextField.of(line.text, layout)) {
                TextField place = new TextField(field.at(), field.key(), "");
                double number = field.number(layout.decimal());
                if (Double.isFinite(number)) {
                    numbers.computeIfAbsent(place, k -> new ArrayList<>()).add(new double[] {timeS, number});
                } else if (field.text().length() == 1) {
                    words.computeIfAbsent(place, k -> new LinkedHashSet<>()).add(field.text());
                }
            }
        }
        List<Column> columns = new ArrayList<>();
        List<TextField> order = List.copyOf(numbers.keySet());
        numbers.forEach((place, samples) -> {
            if (samples.size() > MOSTLY * lines.size()) {
                int at = layout.keyed() ? order.indexOf(place) : place.at();
                Column column = Column.of(Spot.text(at, place.key()), samples);
                if (column.highest() > column.lowest()) {
                    columns.add(column);
                    columns.addAll(lettered(column, layout, words));
                }
                if (!layout.keyed()) {
                    minutes(place, numbers).ifPresent(whole -> {
                        columns.add(whole);
                        columns.addAll(lettered(whole, layout, words));
                    });
                }
            }
        });
        String how = layout.json()
                ? "JSON with names of its own"
                : layout.numbers()
                        ? "text, its numbers in their order"
                        : "text parted by "
                                + (layout.separator().equals(Layout.Text.BLANK) ? "blanks" : layout.separator())
                                + (layout.keyed() ? ", KEY" + layout.keyValue() + "VALUE" : "")
                                + (layout.decimal() == ',' ? ", decimal comma" : "");
        return new Frame(
                layout, times.stream().mapToDouble(t -> t[0]).toArray(), List.copyOf(columns), new byte[0], how);
    }

    /** Whole degrees with their minutes in the next field. */
    private static Optional<Column> minutes(TextField place, Map<TextField, List<double[]>> numbers) {
        List<double[]> whole = numbers.getOrDefault(place, List.of());
        List<double[]> minutes = numbers.getOrDefault(new TextField(place.at() + 1, "", ""), List.of());
        if (whole.size() != minutes.size()
                || whole.stream().anyMatch(each -> each[1] != Math.rint(each[1]) || Math.abs(each[1]) > 180)
                || minutes.stream().anyMatch(each -> each[1] < 0 || each[1] >= 60)
                || minutes.stream().allMatch(each -> each[1] == Math.rint(each[1]))) {
            return Optional.empty();
        }
        List<double[]> degrees = new ArrayList<>();
        for (int i = 0; i < whole.size(); i++) {
            // -0 degrees and 30 minutes are south of the equator.
            double share = Math.copySign(minutes.get(i)[1] / 60, whole.get(i)[1]);
            degrees.add(new double[] {whole.get(i)[0], whole.get(i)[1] + share});
        }
        return Optional.of(Column.of(Spot.text(place.at(), "").withMinutes(), degrees));
    }

    /** A number without a sign, with a letter for it in the next field or the one before. */
    private static List<Column> lettered(Column column, Layout.Text layout, Map<TextField, Set<String>> words) {
        if (layout.keyed() || column.lowest() < 0) {
            return List.of();
        }
        List<Column> lettered = new ArrayList<>();
        int behind = column.spot().at() + column.spot().size();
        int before = column.spot().at() - 1;
        for (int at : before < 0 ? new int[] {behind} : new int[] {behind, before}) {
            Set<String> letters = words.getOrDefault(new TextField(at, "", ""), Set.of());
            for (List<String> pair : List.of(List.of("N", "S"), List.of("E", "W"))) {
                if (!letters.isEmpty() && pair.containsAll(letters)) {
                    String negative = pair.get(1);
                    Spot spot = column.spot().with(new Value.Hemisphere(at, "", List.of(negative)));
                    // A flight over the equator in the few minutes of learning is not worth a column of letters.
                    double sign = letters.contains(negative) ? -1 : 1;
                    lettered.add(new Column(spot, column.timeS(), column.times(sign)));
                }
            }
        }
        return lettered;
    }
}
