import { describe, expect, it } from 'vitest';
import { solved, stiff, type Part } from '../circuit/solved.ts';

describe('resistors and sources', () => {
  it('two equal resistors halve 12 V', () => {
    const { volts, amps } = solved(
      stiff(12),
      ['resistor', 'top', 'plus', 'middle', 1000],
      ['resistor', 'bottom', 'middle', 'gnd', 1000],
    );
    expect(volts('middle')).toBeCloseTo(6, 6);
    expect(amps('top')).toBeCloseTo(0.006, 9);
    expect(amps('battery')).toBeCloseTo(0.006, 9);
  });

  it('a conductor that hangs in the air reads 0 V', () => {
    const { volts } = solved(stiff(12), ['resistor', 'lead', 'end', 'far-end', 2]);
    expect(volts('end')).toBe(0);
    expect(volts('far-end')).toBe(0);
  });

  it('an open joint passes nothing, a perfect one takes no volts', () => {
    const { volts, amps } = solved(
      stiff(12),
      ['resistor', 'open', 'plus', 'a', Infinity],
      ['resistor', 'good', 'plus', 'b', 0],
      ['resistor', 'draw', 'b', 'gnd', 12],
    );
    expect(amps('open')).toBe(0);
    expect(volts('a')).toBe(0);
    expect(volts('plus', 'b')).toBeCloseTo(1e-6, 9);
  });

  it('a floating battery keeps its 12 V though its own resistance is a micro-ohm', () => {
    const { volts } = solved(
      ['source', 'battery', 'a', 'b', 12, 1e-6],
      ['resistor', 'damp', 'b', 'gnd', 1e7],
    );
    expect(volts('a', 'b')).toBeCloseTo(12, 12);
  });

  it('a meter of 10 megohm reads 9.9 V of 10 V behind 100 kohm', () => {
    const parts = [
      ['source', 'battery', 'plus', 'gnd', 10, 1e-3],
      ['resistor', 'series', 'plus', 'probe', 100e3],
    ] as const;
    const open = solved([...parts[0]], [...parts[1]]);
    const metered = solved([...parts[0]], [...parts[1]], ['resistor', 'meter', 'probe', 'gnd', 10e6]);
    expect(metered.volts('probe')).toBeCloseTo(9.901, 3);
    const divided = (open.volts('probe') * 10e6) / (10e6 + open.ohms('probe'));
    expect(metered.volts('probe')).toBeCloseTo(divided, 9);
  });
});

describe('constant-power loads', () => {
  it('13.6 V, 17.9 ohm, 2 W settles at 10.0 V', () => {
    const { volts, state, cycles } = solved(
      stiff(13.6),
      ['resistor', 'joint', 'plus', 'unit', 17.9],
      ['load', 'radio', 'unit', 'gnd', 2, 7, 9],
    );
    expect(state('radio')).toBe('on');
    expect(volts('unit')).toBeCloseTo(10.03, 2);
    expect(cycles).toBe(false);
  });

  it('3 W behind 18 ohm at 13.6 V has no steady point: it cycles, between 13.6 V and its cut-off', () => {
    const { volts, low, state } = solved(
      stiff(13.6),
      ['resistor', 'joint', 'plus', 'unit', 18],
      ['load', 'radio', 'unit', 'gnd', 3, 6, 9],
    );
    expect(state('radio')).toBe('cycling');
    expect(volts('unit')).toBeCloseTo(13.6, 4);
    expect(low.volts('unit')).toBeCloseTo(6, 3);
    expect(low.amps('radio')).toBeCloseTo(7.6 / 18, 4);
  });

  it('a load whose steady point lies below its cut-off cycles as well', () => {
    const { state } = solved(
      stiff(13.6),
      ['resistor', 'joint', 'plus', 'unit', 17.9],
      ['load', 'radio', 'unit', 'gnd', 2, 10.5, 11.5],
    );
    expect(state('radio')).toBe('cycling');
  });

  it('left with less than its starting volts a load that went off stays off', () => {
    const { state, volts, cycles } = solved(
      stiff(8),
      ['resistor', 'joint', 'plus', 'unit', 10],
      ['load', 'radio', 'unit', 'gnd', 3, 6, 9],
    );
    expect(state('radio')).toBe('off');
    expect(volts('unit')).toBeCloseTo(8, 4);
    expect(cycles).toBe(false);
  });

  it('between cut-off and start a load that can run is running', () => {
    const { state } = solved(stiff(8), ['load', 'radio', 'plus', 'gnd', 3, 6, 9]);
    expect(state('radio')).toBe('on');
  });

  it('a load connected the wrong way round draws nothing', () => {
    const { state, amps } = solved(stiff(13.6), ['load', 'radio', 'gnd', 'plus', 3, 6, 9]);
    expect(state('radio')).toBe('off');
    expect(amps('radio')).toBe(0);
  });

  it('0 W is nothing there', () => {
    const { state, amps } = solved(stiff(13.6), ['load', 'radio', 'plus', 'gnd', 0, 6, 9]);
    expect([state('radio'), amps('radio')]).toEqual(['off', 0]);
  });

  it('of two units the one behind the bad joint cycles and the other runs on', () => {
    const { state, low, volts } = solved(
      stiff(13.6),
      ['resistor', 'run', 'plus', 'near', 1],
      ['load', 'keypad', 'near', 'gnd', 1, 8, 9],
      ['resistor', 'joint', 'near', 'far', 18],
      ['load', 'radio', 'far', 'gnd', 3, 6, 9],
    );
    expect([state('keypad'), state('radio')]).toEqual(['on', 'cycling']);
    expect(low.volts('far')).toBeCloseTo(6, 3);
    expect(low.volts('near')).toBeLessThan(volts('near'));
  });

  it('a unit that could run alone starts again once the one that starved it is off', () => {
    // Both see 9 V through 4 ohm. Together they have no steady point; the one with the high cut-off goes first, then the other.
    const { state } = solved(
      stiff(9),
      ['resistor', 'joint', 'plus', 'unit', 4],
      ['load', 'small', 'unit', 'gnd', 0.5, 8, 8.5],
      ['load', 'big', 'unit', 'gnd', 8, 4, 9.5],
    );
    expect([state('small'), state('big')]).toEqual(['on', 'off']);
  });

  it('of two that cannot run together the one furthest below its cut-off goes off, whichever is wired first', () => {
    // 9 V through 4 ohm: 3.5 W at 7.0 V, which is too little for the first; 3 W at 7.37 V.
    const parts: Part[] = [
      ['load', 'choosy', 'unit', 'gnd', 0.5, 8, 8.5],
      ['load', 'modest', 'unit', 'gnd', 3, 4, 5],
    ];
    for (const units of [parts, parts.toReversed()]) {
      const { state, volts } = solved(stiff(9), ['resistor', 'joint', 'plus', 'unit', 4], ...units);
      expect([state('choosy'), state('modest')]).toEqual(['off', 'on']);
      expect(volts('unit')).toBeCloseTo(4.5 + Math.sqrt(4.5 ** 2 - 12), 4);
    }
  });

  it('of two that wait to start the one with more volts to spare goes first, whichever is wired first', () => {
    // With the third, 9 V through 4 ohm holds none of them. Either alone is held at 7.37 V, both together are not.
    const parts: Part[] = [
      ['load', 'eager', 'unit', 'gnd', 3, 5, 7],
      ['load', 'slow', 'unit', 'gnd', 3, 5.5, 8],
    ];
    for (const units of [parts, parts.toReversed()]) {
      const { state } = solved(stiff(9), ['resistor', 'joint', 'plus', 'unit', 4], ...units, [
        'load',
        'heavy',
        'unit',
        'gnd',
        8,
        4,
        9.5,
      ]);
      expect([state('eager'), state('slow'), state('heavy')]).toEqual(['on', 'off', 'off']);
    }
  });

  it('a unit that cannot stay on through the dips of another cycles with it', () => {
    const { state } = solved(
      stiff(13.6),
      ['resistor', 'joint', 'plus', 'unit', 18],
      ['load', 'radio', 'unit', 'gnd', 3, 6, 9],
      ['load', 'keypad', 'unit', 'gnd', 0.2, 8, 9],
    );
    expect([state('radio'), state('keypad')]).toEqual(['cycling', 'cycling']);
  });

  it('seen from its terminals a running load lowers no volts but raises the resistance', () => {
    const { ohms } = solved(
      stiff(13.6),
      ['resistor', 'joint', 'plus', 'unit', 17.9],
      ['load', 'radio', 'unit', 'gnd', 2, 7, 9],
    );
    // 1 / (1/17.9 - P/V^2), V = 10.031 V
    expect(ohms('unit')).toBeCloseTo(1 / (1 / 17.9 - 2 / 10.0311 ** 2), 1);
  });
});

describe('supplies', () => {
  const aux = (limit: number, rawVolts = Infinity) =>
    ['supply', 'aux', 'plus', 'gnd', 13.8, 0.1, limit, rawVolts, 10] as const;

  it('13.8 V behind 0.1 ohm gives 13.7 V at 1 A', () => {
    const { volts } = solved([...aux(2)], ['resistor', 'draw', 'plus', 'gnd', 13.7]);
    expect(volts('plus')).toBeCloseTo(13.7, 9);
  });

  it('limited to 1 A it holds 5 V across 5 ohm', () => {
    const { volts, amps } = solved([...aux(1)], ['resistor', 'draw', 'plus', 'gnd', 5]);
    expect(volts('plus')).toBeCloseTo(5, 9);
    expect(amps('aux')).toBeCloseTo(1, 9);
  });

  it('with 18 V raw behind 10 ohm it loses regulation: 9 V across 10 ohm', () => {
    const { volts } = solved([...aux(2, 18)], ['resistor', 'draw', 'plus', 'gnd', 10]);
    expect(volts('plus')).toBeCloseTo(9, 9);
  });

  it('it never sinks: a 14.4 V battery beside it keeps 14.4 V', () => {
    const { volts, amps } = solved([...aux(2)], ['source', 'battery', 'plus', 'gnd', 14.4, 0.05]);
    expect(volts('plus')).toBeCloseTo(14.4, 9);
    expect(amps('aux')).toBe(0);
  });

  it('5 W at 13.8 V from a supply limited to 0.3 A cycles, from one limited to 0.4 A it runs', () => {
    const radio = ['load', 'radio', 'plus', 'gnd', 5, 9, 10] as const;
    expect(solved([...aux(0.3)], [...radio]).state('radio')).toBe('cycling');
    expect(solved([...aux(0.4)], [...radio]).state('radio')).toBe('on');
  });

  it('one without volts lets nothing in: the ohms across it are those of what stands beside it', () => {
    const { ohms } = solved(
      ['supply', 'dead', 'plus', 'gnd', 0, 0.1, 2, Infinity, 1],
      ['resistor', 'draw', 'plus', 'gnd', 100],
    );
    expect(ohms('plus')).toBeCloseTo(100, 6);
  });

  it('one of no ohms holds its volts, from no load at all up to its limit', () => {
    const perfect: Part = ['supply', 'aux', 'plus', 'gnd', 13.8, 0, 1, Infinity, 10];
    expect(solved(perfect).volts('plus')).toBeCloseTo(13.8, 9);
    for (let share = 1e-12; share < 1; share *= 1.7) {
      const { volts, state, amps } = solved(perfect, ['load', 'radio', 'plus', 'gnd', 13.8 * share, 5, 6]);
      expect(state('radio')).toBe('on');
      expect(amps('radio')).toBeCloseTo(share, 6);
      expect(volts('plus')).toBeCloseTo(13.8, 5);
    }
  });

  it('one that is unloaded has its regulated volts, not those of the unregulated source behind it', () => {
    const { volts } = solved([...aux(2, 35)]);
    expect(volts('plus')).toBeCloseTo(13.8, 9);
  });

  it.each([
    [1, 10],
    [2, 10],
    [0.07, 11],
  ])(
    'one of %f ohm that gives its very last ampere at %i V to a load and a resistor by halves shows the ohms of the resistor: the load, whose own would be as many below zero, counts as held amperes',
    (own, held) => {
      const limit = (13.8 - held) / own;
      const { ohms, state, volts } = solved(
        ['supply', 'aux', 'plus', 'gnd', 13.8, own, limit, Infinity, 1],
        ['resistor', 'draw', 'plus', 'gnd', (2 * held) / limit],
        ['load', 'radio', 'plus', 'gnd', (held * limit) / 2, 5, 6],
      );
      expect(state('radio')).toBe('on');
      expect(volts('plus')).toBeCloseTo(held, 4);
      expect(ohms('plus')).toBeCloseTo((2 * held) / limit, 6);
    },
  );

  it('one that stands ready at lower volts takes a load over', () => {
    const { volts, state } = solved(
      ['source', 'weak', 'plus', 'gnd', 14, 10e3],
      [...aux(1)],
      ['load', 'radio', 'plus', 'gnd', 3, 9, 10],
    );
    expect(state('radio')).toBe('on');
    expect(volts('plus')).toBeCloseTo(13.78, 2);
  });
});

describe('diodes and fuses', () => {
  it('a silicon diode takes 0.7 V at 0.1 A', () => {
    const { volts } = solved(
      stiff(12),
      ['diode', 'd', 'plus', 'out', 1e-13, 1],
      ['resistor', 'draw', 'out', 'gnd', 113],
    );
    expect(volts('plus', 'out')).toBeCloseTo(0.0258649 * Math.log(0.1 / 1e-13), 2);
  });

  it('backwards it blocks, and what is behind it stays at 0 V', () => {
    const { volts } = solved(
      stiff(12),
      ['diode', 'd', 'out', 'plus', 1e-14, 1],
      ['resistor', 'draw', 'out', 'gnd', 1000],
    );
    expect(volts('out')).toBeCloseTo(0, 9);
  });

  it('a load runs behind a diode that shuts when nothing flows', () => {
    const { volts, state } = solved(
      stiff(12),
      ['diode', 'd', 'plus', 'unit', 1e-13, 1],
      ['load', 'radio', 'unit', 'gnd', 3, 8, 9],
    );
    expect(state('radio')).toBe('on');
    expect(volts('unit')).toBeCloseTo(11.26, 2);
  });

  it('a 1.1 A fuse holds at 1.0 A and trips at 1.2 A', () => {
    const through = (ohms: number) =>
      solved(
        stiff(12),
        ['fuse', 'f', 'plus', 'out', 0.1, 1.1, 5000],
        ['resistor', 'draw', 'out', 'gnd', ohms],
      );
    expect(through(11.9).tripped('f')).toBe(false);
    expect(through(9.9).tripped('f')).toBe(true);
    expect(through(9.9).volts('out')).toBeLessThan(0.03);
  });

  it('of two fuses in line with a short only the weaker one trips', () => {
    const { tripped } = solved(
      stiff(12),
      ['fuse', 'main', 'plus', 'a', 0.1, 5, 5000],
      ['fuse', 'branch', 'a', 'b', 0.1, 1.1, 5000],
      ['resistor', 'short', 'b', 'gnd', 0.2],
    );
    expect([tripped('main'), tripped('branch')]).toEqual([false, true]);
  });

  it('a unit behind a tripped fuse keeps trying to start', () => {
    const { state, tripped } = solved(
      stiff(13.6),
      ['fuse', 'f', 'plus', 'unit', 0.1, 0.5, 2000],
      ['load', 'radio', 'unit', 'gnd', 12, 8, 9],
    );
    expect(tripped('f')).toBe(true);
    expect(state('radio')).toBe('cycling');
  });
});

describe('the multiply-adds of a solution, counted by hand', () => {
  // A node that goes takes three for each branch it has (two shares, one on the way back) and three for each pair of them
  // (siemens, and amperes twice). Each has a branch to ground.
  const [last, end, middle] = [3 * 1, 3 * (2 + 1), 3 * (3 + 3)];
  const chain = (nodes: number): Part[] =>
    Array.from({ length: nodes - 1 }, (_, n): Part => ['resistor', `r${n}`, `n${n}`, `n${n + 1}`, 10]);

  it('along a chain every node but the last has one neighbour when it goes', () => {
    const { point } = solved(['source', 'battery', 'n0', 'gnd', 12, 1], ...chain(8));
    expect(point.operations).toBe(7 * end + last);
  });

  it('around a ring it has two, until two nodes are left', () => {
    const { point } = solved(['source', 'battery', 'n0', 'gnd', 12, 1], ...chain(8), [
      'resistor',
      'back',
      'n7',
      'n0',
      10,
    ]);
    expect(point.operations).toBe(6 * middle + end + last);
  });

  it('where a load is, the node is solved twice at the least: unloaded, and with what runs', () => {
    const { point } = solved(['source', 'battery', 'n0', 'gnd', 12, 1], ...chain(8), [
      'load',
      'nothing',
      'n7',
      'gnd',
      0,
      5,
      6,
    ]);
    expect(point.operations).toBe(7 * end + 2 * last);
  });

  it('and so are two neighbours with a load each', () => {
    const { point } = solved(
      ['source', 'battery', 'n0', 'gnd', 12, 1],
      ...chain(8),
      ['load', 'nothing', 'n7', 'gnd', 0, 5, 6],
      ['load', 'nor-this', 'n6', 'gnd', 0, 5, 6],
    );
    expect(point.operations).toBe(6 * end + 2 * (end + last));
  });
});
