package org.rejoin.console.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** A lesson whose clearance holds together and leads nowhere: the fix of its hold lies behind the aircraft when it is due. */
final class HoldBehind {

    private HoldBehind() {}

    /**
     * Writes the lesson, and its chart beside it.
     *
     * @return the lesson
     */
    static Path lesson(Path folder) throws IOException {
        Files.copy(
                Path.of("src/main/resources/org/rejoin/console/lesson/open-ocean.yaml"),
                folder.resolve("open-ocean.yaml"));
        return Files.writeString(folder.resolve("hold.yaml"), """
                title: A hold that nothing leads to
                chart: open-ocean.yaml
                filed: "XSKU DCT SKU V40 FUL DCT XFUL"
                date: 2026-06-01
                start: {at: "38.183,-49.781", altitude_ft: 8000, heading_magnetic_deg: 110, speed_kt: 140}
                amendments:
                  - {when: {elapsed_s: 10}, say: "fly heading 110, intercept the PTL 066 radial, hold southwest on the PTL 066 radial at 5 DME, left turns"}
                standard: instrument-rating
                """);
    }
}
