package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.concurrent.TimeUnit;

import org.rejoin.console.Browser;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;

import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.OS;

/** A page whose program stands still, with the connection open: what it shows is old, and nothing on it says otherwise. */
@Timeout(value = 3, unit = TimeUnit.MINUTES)
@DisabledOnOs(OS.WINDOWS)
class StandsStillInBrowserTest extends RealRoom {

    private static void signal(RealProgram program, String name) throws Exception {
        assertThat(new ProcessBuilder(
                                "kill",
                                "-" + name,
                                String.valueOf(program.process().pid()))
                        .start()
                        .waitFor())
                .isZero();
    }

    @Test
    void aSeatIsGreyedWhileTheProgramDoesNotAnswer() throws Exception {
        Assumptions.assumeTrue(Browser.installed().isPresent(), "no Chromium on this machine");
        try (RealProgram program = room();
                Simulator simulator = new Simulator(feed, 2).fly(LessonReader.read("heading-to-airway"), Habit.GOOD);
                Browser desk = new Browser(folder, 1280, 800)) {
            assertThat(simulator.over()).isFalse();
            desk.open(address() + "/seat?s=s1");
            desk.until(
                    "fetch('/api/assign', {method: 'POST', headers: {'Content-Type': 'application/json'},"
                            + " body: '{\"seat\":\"s1\",\"pilot\":\"Anna\",\"lesson\":\"heading-to-airway\"}'}).then((r) => r.ok)");
            desk.untilText("#data", "flying");
            desk.untilText("#stage", "in flight");
            desk.until("/00:0[2-9]/.test(document.getElementById('clock').innerText)");
            signal(program, "STOP");
            try {
                desk.untilText("#data", "connection lost");
                desk.untilText("#stage", "no data");
                assertThat(desk.value("document.body.classList.contains('old')").asBoolean())
                        .isTrue();
            } finally {
                signal(program, "CONT");
            }
            desk.untilText("#data", "flying");
            desk.until("!document.body.classList.contains('old')");
        }
    }
}
