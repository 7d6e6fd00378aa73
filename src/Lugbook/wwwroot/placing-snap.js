// Where a thing comes to rest: in line with another mount or lug, flush with an edge of the chassis, or on the grid. Chassis millimetres; pure.

/** A displacement turned clockwise as seen from beneath (y runs to the rear), degrees. */
export function turned([x, y], degrees) {
  const a = degrees * Math.PI / 180, c = Math.cos(a), s = Math.sin(a);
  return [x * c + y * s, -x * s + y * c];
}

/**
 * @param at    {x, y} where the pointer would have the middle
 * @param thing {name, lugs: [[dx, dy]], half: [w, h], turn}; lugs and half as drawn at its own turn
 * @param by    degrees that it is turned besides
 * @param scene {mounts: [{name, x, y, lugs: [[x, y]]}], edges: [left, front, right, rear] or null, grid: mm}
 * @param reach how far alignment draws, mm
 * @returns {x, y, guides: [{axis: 'x' | 'y', at}]}
 */
export function snap(at, thing, by, scene, reach) {
  const own = [[0, 0], ...thing.lugs.map(l => turned(l, by))];
  const upright = Math.abs(by % 180) > 45 && Math.abs(by % 180) < 135;
  const half = upright ? [thing.half[1], thing.half[0]] : thing.half;
  const result = { x: at.x, y: at.y, guides: [] };
  ['x', 'y'].forEach((axis, k) => {
    let best = null;
    const meet = (target, offset) => {
      const off = target - (at[axis] + offset);
      if (Math.abs(off) <= reach && (!best || Math.abs(off) < Math.abs(best.off) - 1e-9)) best = { off, target };
    };
    for (const other of scene.mounts) {
      if (other.name === thing.name) continue;
      meet(k === 0 ? other.x : other.y, 0);
      for (const lug of other.lugs) for (const o of own) meet(lug[k], o[k]);
    }
    if (scene.edges) {
      meet(scene.edges[k], -half[k]);
      meet(scene.edges[k + 2], half[k]);
    }
    if (best) {
      result[axis] = at[axis] + best.off;
      result.guides.push({ axis, at: best.target });
    } else if (scene.grid > 0) result[axis] = Math.round(at[axis] / scene.grid) * scene.grid;
    result[axis] = Math.round(result[axis] * 10) / 10;
  });
  return result;
}
