export declare function measureStart(
  runs?: number,
): Promise<{ readonly ours: number; readonly empty: number; readonly ratio: number; readonly runs: number }>;
