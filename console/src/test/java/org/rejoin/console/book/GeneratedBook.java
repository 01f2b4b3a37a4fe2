package org.rejoin.console.book;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.SplittableRandom;

import org.rejoin.console.recording.Durable;

/** Attempts of a made-up school, each a folder with the files of a real one; the datagrams are few. */
public final class GeneratedBook {

    private static final List<String> LESSONS =
            List.of("Radial outbound to an airway", "Heading to an airway", "Radial inbound", "Reef to Atoll direct");
    private static final List<String> FAULTS = List.of("OVERSHOOT", "WEAVING", "ALTITUDE_NOT_HELD", "HEADING_NOT_HELD");
    private static final Instant START = Instant.parse("2025-09-01T08:00:00Z");

    private final RecordBook book;
    private final SplittableRandom random = new SplittableRandom(16);

    /** For a book. */
    public GeneratedBook(RecordBook book) {
        this.book = book;
    }

    /** So many attempts of so many pilots over a year. */
    public void add(int attempts, int pilots) throws IOException {
        for (int i = 0; i < attempts; i++) {
            int who = random.nextInt(pilots);
            add(
                    new Pilot(String.format(Locale.ROOT, "%08x", who), "Pilot " + who),
                    LESSONS.get(random.nextInt(LESSONS.size())),
                    START.plusSeconds((long) (365.0 * 86_400 * i / attempts)),
                    random.nextInt(400, 1000) / 10.0,
                    i % 20 == 0);
        }
    }

    /** One attempt. */
    public AttemptFolder add(Pilot pilot, String lesson, Instant began, double score, boolean signed)
            throws IOException {
        Attempt attempt = new Attempt(
                Attempt.newId(began, random),
                pilot.name(),
                pilot.id(),
                "SEAT" + random.nextInt(12),
                lesson,
                began,
                OptionalDouble.of(600 + random.nextInt(600)),
                "Rejoin 0.1.0",
                "",
                "",
                "");
        AttemptFolder folder = book.put(attempt, place -> {
            byte[] capture = new byte[4096];
            for (int i = 0; i < capture.length; i++) {
                capture[i] = (byte) random.nextInt(256);
            }
            Files.write(place.resolve("flight.pcap"), capture);
            Files.writeString(place.resolve("lesson.yaml"), "title: \"" + lesson + "\"\n");
            Files.writeString(place.resolve("chart"), "name: Open ocean\n");
            Files.writeString(place.resolve("log.jsonl"), "{\"time_s\": 0.00, \"event\": \"flight_began\"}\n");
            writeGrade(place, score, score >= 80 ? List.of() : List.of(FAULTS.get(random.nextInt(FAULTS.size()))));
        });
        if (signed) {
            folder.sign(new Signature.Words("C. F. Reef", "0000", "", "", ""), began.plusSeconds(3600));
        }
        return folder;
    }

    /** A grade as the program writes it, with criteria of usual length. */
    static void writeGrade(Path place, double score, List<String> faults) throws IOException {
        StringBuilder grade = new StringBuilder(
                "{\n  \"score\" : " + score + ",\n  \"standard\" : \"instrument-rating\",\n  \"met\" : " + (score >= 80)
                        + ",\n  \"criteria\" : [ ");
        for (int i = 0; i < 8; i++) {
            grade.append(i == 0 ? "" : ", ")
                    .append(
                            "{\"code\" : \"HEADING\", \"title\" : \"Assigned heading held\", \"measured\" : 3.1, \"unit\" :"
                                    + " \"deg\", \"limit\" : 10, \"points\" : 9, \"max_points\" : 10, \"met\" : true, \"from_s\" :"
                                    + " 30.0, \"to_s\" : 214.0, \"source\" : \"FAA-S-ACS-8C, IR.V.B.S7\"}");
        }
        grade.append(" ],\n  \"faults\" : [ ");
        for (int i = 0; i < faults.size(); i++) {
            grade.append(i == 0 ? "" : ", ")
                    .append("{\"code\" : \"" + faults.get(i) + "\", \"at_s\" : 214.2, \"text\" : \"Lead the turn.\"}");
        }
        grade.append(" ],\n  \"notes\" : [ ]\n}\n");
        Durable.write(place.resolve("grade.json"), grade.toString().getBytes(StandardCharsets.UTF_8));
    }
}
