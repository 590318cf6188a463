/**
 * The search for the front. Nothing is assumed of what more of anything does. Left out is only what a design that passes
 * beats already, whatever the verdict on it would be. A design waits while one is on its way that would beat it by passing:
 * where objectives are known beforehand no design is run that could have been left out, and no search that is right for
 * every cabinet runs fewer.
 */
import type { RunWhole } from '../trials/trial.ts';
import { Course } from './course.ts';
import type { DesignsPlan } from './plan.ts';
import { beats } from './rank.ts';

/** Trials that a round is filled up to with further stages of the designs that are in it; no answer depends on it. */
const roundTrials = 16;

/** Every design, as far as it was taken. */
export async function searchFront(
  plan: Pick<DesignsPlan, 'designs' | 'situations' | 'objectives'>,
  run: RunWhole,
): Promise<readonly Course[]> {
  const courses = plan.designs.map((design) => new Course(design, plan));
  for (;;) {
    const open = openOf(courses);
    if (open.length === 0) return courses;
    const stages = stagesOf(open);
    const outcomes = await run(stages.flatMap(({ trials }) => trials));
    let from = 0;
    for (const { course, trials } of stages) {
      course.take(outcomes.slice(from, from + trials.length));
      from += trials.length;
    }
  }
}

/** Courses that can go on now: neither failed nor through, not beaten, and none on its way that may come to beat them. */
function openOf(courses: readonly Course[]): readonly Course[] {
  const able = courses
    .filter(({ failed }) => !failed)
    .map((course) => ({ course, best: course.best, worst: course.worst }));
  const going = able.filter(({ course }) => !course.isThrough);
  const open = going.filter((one) => !able.some((other) => other !== one && beats(other.worst, one.best)));
  // The least of the first objective first: what beats others is found early.
  return open.sort((a, b) => a.best[0]! - b.best[0]!).map(({ course }) => course);
}

/** The next stage of as many as fill a round; of few, stages further on as well. */
function stagesOf(open: readonly Course[]) {
  const stages: { course: Course; trials: NonNullable<ReturnType<Course['stage']>> }[] = [];
  let count = 0;
  for (let ahead = 0; ; ahead++) {
    let any = false;
    for (const course of open) {
      if (count >= roundTrials) return stages;
      const trials = course.stage(ahead);
      if (trials === null) continue;
      any = true;
      stages.push({ course, trials });
      count += trials.length;
    }
    if (!any) return stages;
  }
}
