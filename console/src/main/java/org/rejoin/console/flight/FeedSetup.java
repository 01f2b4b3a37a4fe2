package org.rejoin.console.flight;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

import org.rejoin.console.json.Json;
import org.rejoin.console.recording.RecordingFolder;
import org.rejoin.protocol.detect.WireFormats;
import org.rejoin.protocol.yaml.YamlException;
import org.rejoin.protocol.yaml.YamlMembers;
import org.rejoin.protocol.yaml.YamlNode;
import org.rejoin.protocol.yaml.YamlText;

/**
 * How a feed is listened to. Kept with a recording, so that it is graded the same way without being told again.
 *
 * @param formats named by the user, each a built-in format or a profile file, in the order in which they are tried before
 *     the others
 * @param practicePilot habit of the practice aircraft, which flew it; empty where a person does
 */
public record FeedSetup(Following following, List<String> formats, Optional<String> practicePilot) {

    /** The first aircraft, in any format that is known anyway. */
    public static final FeedSetup USUAL = new FeedSetup(Following.FIRST, List.of());

    private static final long MOST_OCTETS = 1 << 20;

    private static final List<String> KEYS = List.of("aircraft", "every_aircraft", "formats", "practice_pilot");

    private static final String WANTED =
            "what is kept of a feed is aircraft (a list), every_aircraft (true or false), formats (a list) and practice_pilot";

    public FeedSetup {
        formats = List.copyOf(formats);
    }

    /** Of a person's aircraft. */
    public FeedSetup(Following following, List<String> formats) {
        this(following, formats, Optional.empty());
    }

    /**
     * What a recording was made with.
     *
     * @return the usual where nothing else was kept
     * @throws IOException if what was kept cannot be read; one line
     */
    public static FeedSetup kept(RecordingFolder folder) throws IOException {
        Optional<Path> file = folder.kept(RecordingFolder.Part.FEED);
        if (file.isEmpty()) {
            return USUAL;
        }
        if (Files.size(file.get()) > MOST_OCTETS) {
            throw new IOException(file.get() + " has " + Files.size(file.get()) + " octets; " + WANTED);
        }
        try {
            YamlMembers kept = new YamlMembers(
                    YamlText.strictly(YamlText.decoded(Files.readAllBytes(file.get())), WANTED),
                    "what is kept of a feed",
                    KEYS);
            List<String> formats = new ArrayList<>();
            for (String format : texts(kept, "formats")) {
                Path beside = file.get().resolveSibling(format);
                formats.add(Files.isRegularFile(beside) ? beside.toString() : format);
            }
            return new FeedSetup(following(kept), formats, kept.text("practice_pilot"));
        } catch (YamlException e) {
            throw new IOException(file.get() + ":" + e.line() + ": " + e.said(), e);
        } catch (InvalidPathException e) {
            throw new IOException(file.get() + ": " + e.getMessage(), e);
        }
    }

    private static Following following(YamlMembers kept) throws YamlException {
        String every = kept.text("every_aircraft").orElse("false");
        if (!every.equals("true") && !every.equals("false")) {
            throw kept.required("every_aircraft").fault("every_aircraft is " + every + "; " + WANTED);
        }
        return every.equals("true") ? Following.EVERY : new Following(texts(kept, "aircraft"), false);
    }

    private static List<String> texts(YamlMembers kept, String name) throws YamlException {
        List<String> texts = new ArrayList<>();
        for (YamlNode each : kept.list(name)) {
            texts.add(YamlMembers.scalar(each, name).text());
        }
        return texts;
    }

    /**
     * Keeps this with a recording, and the profiles it names.
     *
     * @throws IOException if a profile cannot be read, or the disk refuses; one line
     */
    void keep(RecordingFolder folder) throws IOException {
        if (equals(USUAL)) {
            return;
        }
        List<String> kept = new ArrayList<>();
        for (String format : formats) {
            boolean builtIn =
                    new WireFormats().named(format.toLowerCase(Locale.ROOT)).isPresent();
            kept.add(builtIn ? format : folder.writeProfile(kept.size() + 1, Files.readAllBytes(Path.of(format))));
        }
        folder.write(
                RecordingFolder.Part.FEED,
                "aircraft: " + list(following.names()) + "\nevery_aircraft: " + following.every() + "\nformats: "
                        + list(kept) + "\n"
                        + practicePilot
                                .map(habit -> "practice_pilot: " + habit + "\n")
                                .orElse(""));
    }

    private static String list(List<String> texts) {
        return Json.value(json -> json.writeArray(texts.toArray(String[]::new), 0, texts.size()));
    }
}
