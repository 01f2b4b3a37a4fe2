package org.rejoin.console.book;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;

import org.rejoin.console.recording.Durable;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;

/** What a practice room keeps of its seats in {@code room.json}; the room reads and writes it, and a pilot is taken out of it. */
public final class SeatsKept {

    private static final ObjectMapper JSON = new ObjectMapper();

    /** Who sat where, by what a seat is known by. */
    private static final String PILOTS = "pilots";

    private final Path file;

    /** The seats of a data folder. */
    public SeatsKept(HomeFolder home) {
        this.file = home.place().resolve("room.json");
    }

    /** What is kept; empty where nothing is, an IOException of one line where it is damaged. */
    public ObjectNode read() throws IOException {
        try {
            JsonNode node = JSON.readTree(Files.readAllBytes(file));
            return node instanceof ObjectNode object ? object : JSON.createObjectNode();
        } catch (NoSuchFileException e) {
            return JSON.createObjectNode();
        } catch (IOException e) {
            throw new IOException(
                    file + " is damaged: delete it, then seats lose their names and pilots, and nothing else", e);
        }
    }

    /** Keeps all of it. */
    public void write(ObjectNode kept) throws IOException {
        Durable.write(file, JSON.writeValueAsString(kept) + "\n");
    }

    /** A pilot sits nowhere any more. */
    void leave(String pilotId) throws IOException {
        ObjectNode kept = read();
        if (leave(kept, pilotId)) {
            write(kept);
        }
    }

    /** A pilot sits nowhere any more; whether he did in what is kept, which is changed then. */
    public static boolean leave(ObjectNode kept, String pilotId) {
        if (!(kept.path(PILOTS) instanceof ObjectNode pilots)) {
            return false;
        }
        List<String> his = pilots.properties().stream()
                .filter(each -> each.getValue().path("id").asText().equals(pilotId))
                .map(Map.Entry::getKey)
                .toList();
        pilots.remove(his);
        return !his.isEmpty();
    }
}
