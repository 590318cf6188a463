/** Is there a process of this number? One that belongs to somebody else may not be asked, and runs. */
export function isRunning(pid: number): boolean {
  // 0 and less are groups of processes, not one of them.
  if (!(pid > 0)) return false;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return !(error instanceof Error && 'code' in error && error.code === 'ESRCH');
  }
}
