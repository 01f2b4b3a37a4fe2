package org.rejoin.console.flight;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

import org.rejoin.console.recording.RecordingFolder;
import org.rejoin.protocol.detect.WireFormats;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonMappingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.exc.UnrecognizedPropertyException;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import org.jspecify.annotations.Nullable;

/**
 * How a feed is listened to. Kept with a recording, so that it is graded the same way without being told again.
 *
 * @param following which aircraft
 * @param formats named by the user, each a built-in format or a profile file, in the order in which they are tried before
 *     the others
 */
public record FeedSetup(Following following, List<String> formats) {

    /** The first aircraft, in any format that is known anyway. */
    public static final FeedSetup USUAL = new FeedSetup(new Following.First(), List.of());

    private static final ObjectMapper YAML = YAMLMapper.builder()
            .enable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES)
            .build();

    private static final long MOST_OCTETS = 1 << 20;

    private static final String KEYS =
            "what is kept of a feed is aircraft (a list), every_aircraft (true or false) and" + " formats (a list)";

    private record FeedYaml(
            @Nullable List<String> aircraft,
            @Nullable Boolean every_aircraft,
            @Nullable List<String> formats) {}

    /** Copies the list. */
    public FeedSetup {
        formats = List.copyOf(formats);
    }

    /**
     * What a recording was made with.
     *
     * @param folder of the recording
     * @return the usual where nothing else was kept
     * @throws IOException if what was kept cannot be read; one line
     */
    public static FeedSetup kept(RecordingFolder folder) throws IOException {
        Optional<Path> file = folder.feed();
        if (file.isEmpty()) {
            return USUAL;
        }
        if (Files.size(file.get()) > MOST_OCTETS) {
            throw new IOException(file.get() + " has " + Files.size(file.get()) + " octets; " + KEYS);
        }
        try {
            FeedYaml yaml = YAML.readValue(Files.readAllBytes(file.get()), FeedYaml.class);
            if (yaml == null) {
                throw new IOException(file.get() + " is empty; " + KEYS);
            }
            List<String> formats = new ArrayList<>();
            for (String format : yaml.formats() == null ? List.<String>of() : yaml.formats()) {
                Path beside = file.get().resolveSibling(format);
                formats.add(Files.isRegularFile(beside) ? beside.toString() : format);
            }
            return new FeedSetup(following(yaml), formats);
        } catch (UnrecognizedPropertyException e) {
            throw new IOException(file.get() + ": \"" + e.getPropertyName() + "\" is unknown; " + KEYS, e);
        } catch (JsonMappingException e) { // its own words are about classes
            String line = e.getLocation() == null ? "" : ", line " + e.getLocation().getLineNr();
            throw new IOException(file.get() + line + ": not what it should be; " + KEYS, e);
        } catch (JsonProcessingException e) {
            throw new IOException(
                    file.get() + ": "
                            + e.getOriginalMessage()
                                    .replaceFirst("^(\\w+\\.)+\\w+Exception: ", "")
                                    .lines()
                                    .findFirst()
                                    .orElse("not valid"),
                    e);
        } catch (InvalidPathException e) {
            throw new IOException(file.get() + ": " + e.getMessage(), e);
        }
    }

    private static Following following(FeedYaml yaml) {
        if (Boolean.TRUE.equals(yaml.every_aircraft())) {
            return new Following.Every();
        }
        List<String> names = yaml.aircraft();
        return names == null || names.isEmpty() ? new Following.First() : new Following.Named(names);
    }

    /**
     * Keeps this with a recording, and the profiles it names.
     *
     * @param folder of the recording
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
        folder.writeFeed(YAML.writeValueAsString(new FeedYaml(
                following instanceof Following.Named named ? named.names() : List.of(),
                following instanceof Following.Every,
                kept)));
    }
}
