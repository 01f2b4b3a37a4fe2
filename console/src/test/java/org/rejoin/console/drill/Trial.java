package org.rejoin.console.drill;

import java.util.*;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.skill.*;
import org.junit.jupiter.api.Test;

class Trial {
    @Test
    void run() throws Exception {
        Chart chart = LessonReader.read("radial-outbound").chart();
        DrillMaker maker = new DrillMaker(new DrillChart(chart, ""));
        for (Shape shape : List.of(Shape.A, Shape.B, Shape.C)) {
            long t = System.nanoTime();
            int made = 0, right = 0, then = 0, n = 40;
            Map<String, Integer> why = new TreeMap<>();
            for (int seed = 0; seed < n; seed++) {
                try {
                    Drill d = maker.make(DrillRequest.usual(seed).withShape(Optional.of(shape)));
                    made++;
                    if (d.features().turnOntoCourseDeg() > 0) right++;
                    if (d.features().turnAtFixDeg().orElse(0) > 0) then++;
                    if (seed < 4) System.out.println(d.say() + " | " + d.filed().text() + " " + d.start() + " " + d.features());
                } catch (NoDrillException e) { why.merge(e.getMessage(), 1, Integer::sum); }
            }
            System.out.printf("%s made %d right %d then %d, %.0f ms each %s%n", shape, made, right, then, (System.nanoTime() - t) / 1e6 / n, why);
        }
        for (Shape shape : List.of(Shape.A, Shape.B, Shape.C)) {
            Tally tally = new Tally();
            System.out.println(shape + " " + DrillMaker.trial(new DrillChart(chart, ""), shape, 300, tally) + tally.all());
        }
    }

    static long cpu() { return java.lang.management.ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime(); }
    @Test
    void speed() throws Exception {
        Chart chart = LessonReader.read("radial-outbound").chart();
        DrillMaker maker = new DrillMaker(new DrillChart(chart, ""));
        for (int round = 0; round < 3; round++) for (Shape shape : List.of(Shape.A, Shape.B, Shape.C)) {
            List<Drill> drills = new ArrayList<>();
            long t = cpu();
            for (int seed = 0; seed < 20; seed++) drills.add(maker.makeForPaper(DrillRequest.usual(seed).withShape(Optional.of(shape))));
            System.out.printf("draw %s %.1f ms cpu%n", shape, (cpu() - t) / 20e6);
            for (org.rejoin.console.practice.Habit habit : List.of(org.rejoin.console.practice.Habit.GOOD, org.rejoin.console.practice.Habit.RECIPROCAL)) {
                t = cpu(); double s = 0;
                for (Drill d : drills) { s += TestFlight.fly(d.lesson(chart, new org.rejoin.console.lesson.Lesson.Files("", "", new org.rejoin.console.lesson.Lesson.KeptChart.Octets(new byte[0]))), habit).seconds(); }
                System.out.printf("%s %.1f ms cpu, %.0f s flown%n", habit, (cpu() - t) / 20e6, s / 20);
            }
            t = cpu();
            for (Drill d : drills) FlownCheck.wrong(d, chart);
            System.out.printf("all %.1f ms cpu%n", (cpu() - t) / 20e6);
        }
    }
}
