package org.rejoin.console.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

import org.rejoin.console.flight.Debrief;
import org.rejoin.console.json.Json;
import org.rejoin.console.why.Explainer;
import org.rejoin.console.why.Explanation;

/** What {@code debrief --why TIME} answers: for each aircraft that has an event near. */
final class WhyAnswer {

    private final double askedS;

    private WhyAnswer(double askedS) {
        this.askedS = askedS;
    }

    static WhyAnswer to(String time) throws BadInput {
        return new WhyAnswer(Explainer.timeS(time)
                .orElseThrow(() -> new BadInput("--why " + time
                        + " is no time of a flight: give seconds, as 209.5, or the clock of the log, as 03:29.5")));
    }

    /** Prints it; refuses where no aircraft has an event near. */
    void print(List<Debrief> debriefs, boolean several, boolean json, PrintWriter print) throws BadInput, IOException {
        Map<Debrief, List<Explanation>> found = new LinkedHashMap<>();
        String refusal = "";
        for (Debrief debrief : debriefs) {
            try {
                found.put(
                        debrief,
                        Explainer.explanations(
                                debrief.record(), askedS, debrief.set().limits()));
            } catch (Explainer.NothingNearException e) {
                refusal = refusal.isEmpty() ? String.valueOf(e.getMessage()) : refusal;
            }
        }
        if (found.isEmpty()) {
            throw new BadInput(refusal);
        }
        if (json) {
            print.println(object(found, several));
        } else {
            for (Map.Entry<Debrief, List<Explanation>> each : found.entrySet()) {
                if (several) {
                    print.println(each.getKey().aircraft().label());
                }
                Explainer.lines(each.getValue()).forEach(print::println);
                print.println();
            }
            print.println(Rejoin.CAUTION);
        }
    }

    private static String object(Map<Debrief, List<Explanation>> found, boolean several) {
        return Json.object(json -> {
            json.writeArrayFieldStart("why");
            for (Map.Entry<Debrief, List<Explanation>> each : found.entrySet()) {
                for (Explanation explanation : each.getValue()) {
                    if (several) {
                        json.writeStartObject();
                        json.writeStringField("seat", each.getKey().aircraft().label());
                        json.writeFieldName("explanation");
                    }
                    explanation.write(json);
                    if (several) {
                        json.writeEndObject();
                    }
                }
            }
            json.writeEndArray();
        });
    }
}
