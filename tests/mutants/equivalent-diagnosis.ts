import type { Harmless } from './equivalent.ts';

/** Edits of the diagnosis that change nothing a person could notice. */
export const inTheDiagnosis: readonly Harmless[] = [
  {
    why: 'the sequence starts a step earlier; any start is as good',
    edits: [['diagnosis/draws.ts', 'n + 1', 'n']],
  },
  {
    why: 'the sequence starts two steps earlier; any start is as good',
    edits: [['diagnosis/draws.ts', 'n + 1', 'n - 1']],
  },
  {
    why: 'the extra product falls past the end of the sums, where nothing is kept',
    edits: [['diagnosis/node.ts', 'from < end', 'from <= end']],
  },
  {
    why: 'repairs are numbered below their count',
    edits: [['diagnosis/node.ts', 'repair < last', 'repair <= last']],
  },
  {
    why: 'half of every rate leaves their order',
    edits: [
      [
        'diagnosis/repairs.ts',
        'chanceOf(remedy, left) / Math.max(cost, 1e-9)',
        '(0.5 * (chanceOf(remedy, left) / Math.max(cost, 1e-9)))',
      ],
    ],
  },
  {
    why: 'a problem of just twelve cases goes to the rollout, which finds the same',
    edits: [['diagnosis/exact.ts', 'distinct.size > mostCases', 'distinct.size >= mostCases']],
  },
  {
    why: 'a slope of exactly that, to the last bit, does not happen',
    edits: [
      ['diagnosis/ridge.ts', 'Math.abs(at(j, a * n + c)) > idle', 'Math.abs(at(j, a * n + c)) >= idle'],
    ],
  },
  {
    why: 'minutes that differ by exactly the rounding allowed do not happen',
    edits: [
      [
        'diagnosis/rollout.ts',
        'asked.minutes < best.minutes - noMinutes',
        'asked.minutes <= best.minutes - noMinutes',
      ],
      [
        'diagnosis/rollout.ts',
        'tried.minutes < best.minutes - noMinutes',
        'tried.minutes <= best.minutes - noMinutes',
      ],
      [
        'diagnosis/rollout.ts',
        'minutes + this.known(node.causes, check.situation) >= limit - noMinutes',
        'minutes + this.known(node.causes, check.situation) > limit - noMinutes',
      ],
    ],
  },
  { why: 'at 8.5 both are one to the last bit', edits: [['diagnosis/normal.ts', 'z > 8.5', 'z >= 8.5']] },
  { why: 'at -38 the probability is 3e-316', edits: [['diagnosis/normal.ts', 'z < -38', 'z <= -38']] },
  { why: 'at nought both sides are a half', edits: [['diagnosis/normal.ts', 'z < 0', 'z <= 0']] },
  {
    why: 'at 2.5 the series and the fraction agree to the last digits',
    edits: [['diagnosis/normal.ts', 'x < 2.5', 'x <= 2.5']],
  },
  {
    why: 'terms so small are lost in the rounding of the sum',
    edits: [
      ['diagnosis/normal.ts series', '1e-17 * sum', '(2 * (1e-17 * sum))'],
      ['diagnosis/normal.ts series', '1e-17 * sum', '(0.5 * (1e-17 * sum))'],
      ['diagnosis/normal.ts series', '1e-17 * sum', '1e-17'],
    ],
  },
  {
    why: 'of two rows of the same size either may be the pivot',
    edits: [
      [
        'diagnosis/linear.ts',
        'Math.abs(at(a, i * n + k)) > Math.abs(at(a, best * n + k))',
        'Math.abs(at(a, i * n + k)) >= Math.abs(at(a, best * n + k))',
      ],
    ],
  },
  {
    why: 'a pivot of exactly that does not happen',
    edits: [['diagnosis/linear.ts', 'Math.abs(pivot) > 1e-12', 'Math.abs(pivot) >= 1e-12']],
  },
  {
    why: 'the logarithm of nought is the same minus infinity',
    edits: [['diagnosis/likelihood.ts fit', 'odds > 0', 'odds >= 0']],
  },
  {
    why: 'an interval of just that width is the same either way, to a millionth',
    edits: [
      ['diagnosis/likelihood.ts cumulative', 'high - low < spread / 100', 'high - low <= spread / 100'],
      ['diagnosis/likelihood.ts betweenFit', 'high - low < sigma / 100', 'high - low <= sigma / 100'],
    ],
  },
  {
    why: 'an interval so narrow is the same either way, to some millionths',
    edits: [
      ['diagnosis/likelihood.ts cumulative', 'spread / 100', '(2 * (spread / 100))'],
      ['diagnosis/likelihood.ts cumulative', 'spread / 100', '(0.5 * (spread / 100))'],
      ['diagnosis/likelihood.ts betweenFit', 'sigma / 100', '(2 * (sigma / 100))'],
      ['diagnosis/likelihood.ts betweenFit', 'sigma / 100', '(0.5 * (sigma / 100))'],
    ],
  },
  {
    why: 'where both explain as much either is the sum of both',
    edits: [['diagnosis/likelihood.ts cycleFit', 'atRest > atFall', 'atRest >= atFall']],
  },
  {
    why: 'at just 1e-9 both are 1e-9',
    edits: [['diagnosis/likelihood.ts positive', 'spread > 1e-9', 'spread >= 1e-9']],
  },
  {
    why: 'room past the last cell, that nobody reads',
    edits: [
      [
        'diagnosis/scoring.ts score',
        'hypothesis.branches.length * items.length',
        '(2 * (hypothesis.branches.length * items.length))',
      ],
      ['diagnosis/proposal.ts covariance', 'n * n', '(2 * (n * n))'],
      ['diagnosis/proposal.ts cholesky', 'n * n', '(2 * (n * n))'],
      ['diagnosis/ridge.ts shortest', 'm * m', '(2 * (m * m))'],
      ['diagnosis/node.ts completed', 'check.outcomes * (size + 1)', '(2 * (check.outcomes * (size + 1)))'],
      [
        'diagnosis/node.ts knownMinutes',
        'minutes.situations * causes',
        '(2 * (minutes.situations * causes))',
      ],
    ],
  },
  {
    why: 'where the logarithm is taken does not change the sum',
    edits: [
      ['diagnosis/scoring.ts branchLog', 'product < 1e-200', 'product <= 1e-200'],
      ['diagnosis/scoring.ts branchLog', 'product > 1e200', 'product >= 1e200'],
    ],
  },
  {
    why: 'of two ways that are as likely to the last bit either may be taken',
    edits: [['diagnosis/scoring.ts explained', 'log > most', 'log >= most']],
  },
  {
    why: 'one draw more is remembered, and handed out to nobody before it is asked for',
    edits: [['diagnosis/draws.ts draws', 'known.length < wanted', 'known.length <= wanted']],
  },
  {
    why: 'the same number less one part in 2^32',
    edits: [['diagnosis/draws.ts uniform', 'hash(...parts) + 0.5', 'hash(...parts) - 0.5']],
  },
  {
    why: 'the same number less half a part in 2^32',
    edits: [['diagnosis/draws.ts uniform', 'hash(...parts) + 0.5', 'hash(...parts)']],
  },
  {
    why: 'another hash of the same parts, that spreads as evenly',
    edits: [
      ['diagnosis/draws.ts hash', 'part / 2 ** 32', '(2 * (part / 2 ** 32))'],
      ['diagnosis/draws.ts hash', 'part / 2 ** 32', '(0.5 * (part / 2 ** 32))'],
      ['diagnosis/draws.ts hash', 'i < part.length', 'i <= part.length'],
      [
        'diagnosis/draws.ts absorb',
        'Math.imul((mixed << 13) | (mixed >>> 19), 5) + 0xe6546b64',
        'Math.imul((mixed << 13) | (mixed >>> 19), 5) - 0xe6546b64',
      ],
      [
        'diagnosis/draws.ts absorb',
        'Math.imul((mixed << 13) | (mixed >>> 19), 5) + 0xe6546b64',
        'Math.imul((mixed << 13) | (mixed >>> 19), 5)',
      ],
    ],
  },
  {
    why: 'past the last place no weight is left',
    edits: [['diagnosis/weights.ts resample', 'chosen.length < count', 'chosen.length <= count']],
  },
  {
    why: 'two that are the same to the last bit: either will do',
    edits: [
      [
        'diagnosis/weights.ts resample',
        '(chosen.length + offset) / count < reached',
        '(chosen.length + offset) / count <= reached',
      ],
    ],
  },
  {
    why: 'another number of the same chance; those of the bells end at 33',
    edits: [['diagnosis/proposal.ts draw', '100 + d', '100 - d']],
  },
  {
    why: 'a chance of exactly that has no weight',
    edits: [
      ['diagnosis/proposal.ts draw', 'pick < shares.whole', 'pick <= shares.whole'],
      [
        'diagnosis/proposal.ts draw',
        'pick >= shares.whole + shares.kernels',
        'pick > shares.whole + shares.kernels',
      ],
    ],
  },
  {
    why: 'other numbers of the same chance, none of them used twice',
    edits: [['diagnosis/proposal.ts draw', '2 * i', '(2 * (2 * i))']],
  },
  {
    why: 'a normal number is as often above nought as below it',
    edits: [
      [
        'diagnosis/proposal.ts draw',
        'x += at(bell.factor, i * dims.length + j) * at(z, j)',
        'x -= at(bell.factor, i * dims.length + j) * at(z, j)',
      ],
    ],
  },
  {
    why: 'the cell that it takes in is still nought',
    edits: [
      ['diagnosis/proposal.ts cholesky', 'k < j', 'k <= j'],
      ['diagnosis/proposal.ts distance', 'j < i', 'j <= i'],
    ],
  },
  {
    why: 'past the last coordinate there is no distance',
    edits: [['diagnosis/proposal.ts distance', 'i < n', 'i <= n']],
  },
  {
    why: 'over any whole number of half turns a cosine is spread alike',
    edits: [
      ['diagnosis/proposal.ts normal', '2 * Math.PI * b', '(2 * (2 * Math.PI * b))'],
      ['diagnosis/proposal.ts normal', '2 * Math.PI * b', '(0.5 * (2 * Math.PI * b))'],
      ['diagnosis/proposal.ts normal', '2 * Math.PI', '(2 * (2 * Math.PI))'],
      ['diagnosis/proposal.ts normal', '2 * Math.PI', '(0.5 * (2 * Math.PI))'],
    ],
  },
  {
    why: 'in the middle a slope may be measured either way',
    edits: [['diagnosis/ridge.ts slopes', 'at(from.point, d) > 0.5', 'at(from.point, d) >= 0.5']],
  },
  {
    why: 'squares of exactly that do not happen',
    edits: [
      [
        'diagnosis/ridge.ts descend',
        'squares(here, answers) > answers.length',
        'squares(here, answers) >= answers.length',
      ],
    ],
  },
  {
    why: 'a place that is exactly as far off is no step, and the last either way',
    edits: [
      [
        'diagnosis/ridge.ts descend',
        'squares(tried, answers) < squares(here, answers)',
        'squares(tried, answers) <= squares(here, answers)',
      ],
    ],
  },
  {
    why: 'squares of exactly that share do not happen',
    edits: [
      [
        'diagnosis/ridge.ts descend',
        'squares(there, answers) < worthwhile * squares(here, answers)',
        'squares(there, answers) <= worthwhile * squares(here, answers)',
      ],
    ],
  },
  {
    why: 'without rows none is steep, and the loop ends as well',
    edits: [['diagnosis/ridge.ts settle', 'rows.size > 0', 'rows.size >= 0']],
  },
  {
    why: 'of two slopes that are the same to the last bit either may be taken',
    edits: [['diagnosis/ridge.ts steepest', 'slope > most', 'slope >= most']],
  },
  {
    why: 'a distance of exactly that does not happen',
    edits: [
      [
        'diagnosis/chart.ts isOn',
        'Math.abs(at(errors, answer)) < outside',
        'Math.abs(at(errors, answer)) <= outside',
      ],
      ['diagnosis/chart.ts onto', 'Math.abs(each) < near', 'Math.abs(each) <= near'],
      ['diagnosis/apart.ts', 'most < told', 'most <= told'],
    ],
  },
  {
    why: 'squares of exactly half do not happen',
    edits: [
      ['diagnosis/chart.ts onto', 'squares(next) < squares(off) / 2', 'squares(next) <= squares(off) / 2'],
    ],
  },
  {
    why: 'a coordinate exactly there does not happen',
    edits: [
      [
        'diagnosis/chart.ts isOutermost',
        'Math.abs(u - 0.5) > 0.5 - Math.exp(-outermost)',
        'Math.abs(u - 0.5) >= 0.5 - Math.exp(-outermost)',
      ],
    ],
  },
  {
    why: 'after a step of nought no point is found either way',
    edits: [['diagnosis/chart.ts secant', 'length > 0', 'length >= 0']],
  },
  {
    why: 'of two anchors as near to the last bit either may be taken',
    edits: [['diagnosis/chart.ts nearest', 'far < least', 'far <= least']],
  },
  {
    why: 'where all was found every slice has a factor of one',
    edits: [['diagnosis/bias.ts towards', 'rate < 1', 'rate <= 1']],
  },
  {
    why: 'a chi squared of exactly that does not happen',
    edits: [
      [
        'diagnosis/bias.ts towards',
        'total(off) < differs * rate * (1 - rate)',
        'total(off) <= differs * rate * (1 - rate)',
      ],
    ],
  },
  {
    why: 'in the last slice less is left than the slice',
    edits: [['diagnosis/bias.ts draw', 'slice < slices - 1', 'slice <= slices - 1']],
  },
  {
    why: 'the end of one slice is the beginning of the next',
    edits: [['diagnosis/bias.ts draw', 'left >= at(factor, slice)', 'left > at(factor, slice)']],
  },
  {
    why: 'a size of exactly thirty does not happen',
    edits: [
      [
        'diagnosis/importance.ts',
        'effectiveSize(pool.logs(log, p)) >= enoughToFit',
        'effectiveSize(pool.logs(log, p)) > enoughToFit',
      ],
    ],
  },
  {
    why: 'a power of exactly that does not happen',
    edits: [['diagnosis/importance.ts', 'power < narrow.power', 'power <= narrow.power']],
  },
  {
    why: 'a size of exactly half does not happen',
    edits: [
      ['diagnosis/importance.ts', 'effectiveSize(logs) >= count / 2', 'effectiveSize(logs) > count / 2'],
    ],
  },
  {
    why: 'a size of exactly twice the draws does not happen',
    edits: [
      [
        'diagnosis/importance.ts',
        'effectiveSize(logs) < enoughToWeigh * count',
        'effectiveSize(logs) <= enoughToWeigh * count',
      ],
    ],
  },
  {
    why: 'from the lowest power it goes down to the lowest power',
    edits: [['diagnosis/importance.ts', 'from > lowestPower', 'from >= lowestPower']],
  },
  {
    why: 'past the last third of the cloud there is no draw to try',
    edits: [['diagnosis/importance.ts', 'trial < trials', 'trial <= trials']],
  },
  {
    why: 'a size of exactly that does not happen',
    edits: [
      [
        'diagnosis/straighten.ts',
        'effectiveSize(tally.logs) >= enough * asked.count',
        'effectiveSize(tally.logs) > enough * asked.count',
      ],
      [
        'diagnosis/straighten.ts',
        'effectiveSize(logs) < fewest * asked.count',
        'effectiveSize(logs) <= fewest * asked.count',
      ],
    ],
  },
  {
    why: 'past the last sixth of the cloud there is no draw to start from',
    edits: [['diagnosis/straighten.ts', 'k < starts', 'k <= starts']],
  },
  {
    why: 'one part in 10^12 or two of them: less than any number shows',
    edits: [
      ['diagnosis/belief.ts weighted', 'probability * nothing', '(2 * (probability * nothing))'],
      ['diagnosis/belief.ts weighted', 'share * nothing', '(2 * (share * nothing))'],
    ],
  },
  {
    why: 'one part in 10^12 or half of it: less than any number shows',
    edits: [
      ['diagnosis/belief.ts weighted', 'probability * nothing', '(0.5 * (probability * nothing))'],
      ['diagnosis/belief.ts weighted', 'share * nothing', '(0.5 * (share * nothing))'],
    ],
  },
  {
    why: 'a share of exactly that, or of nothing, weighs nothing',
    edits: [
      ['diagnosis/belief.ts weighted', 'share <= probability * nothing', 'share < probability * nothing'],
    ],
  },
  {
    why: 'a weight of exactly that, or of nothing, weighs nothing',
    edits: [['diagnosis/belief.ts weighted', 'weight > share * nothing', 'weight >= share * nothing']],
  },
  {
    why: 'what says the same counts the same in either order',
    edits: [
      ['diagnosis/belief.ts', 'a.text < b.text', 'a.text <= b.text'],
      ['diagnosis/belief.ts', 'a.text > b.text', 'a.text >= b.text'],
    ],
  },
  {
    why: 'a density of exactly that does not happen',
    edits: [
      [
        'diagnosis/belief.ts',
        'predicted > tail(outlier) * item.unlisted',
        'predicted >= tail(outlier) * item.unlisted',
      ],
    ],
  },
  {
    why: 'a cut that tells exactly that does not happen',
    edits: [['diagnosis/bins.ts binEdges', 'best.told < least * all', 'best.told <= least * all']],
  },
  {
    why: 'without weight there is no share, and no cut tells more than nothing',
    edits: [['diagnosis/bins.ts bestCut', 'weight > 0', 'weight >= 0']],
  },
  {
    why: 'before the first place a cut tells nothing',
    edits: [['diagnosis/bins.ts bestCut', 'start + 1', 'start']],
  },
  {
    why: 'outside of the range a cut tells nothing',
    edits: [['diagnosis/bins.ts bestCut', 'start + 1', '1']],
  },
  {
    why: 'behind the last place a cut tells nothing',
    edits: [['diagnosis/bins.ts bestCut', 'cut < end', 'cut <= end']],
  },
  {
    why: 'a step that ends exactly with a draw does not happen',
    edits: [['diagnosis/representatives.ts thinned', 'next < reached', 'next <= reached']],
  },
  {
    why: 'past the last case there is no weight',
    edits: [
      ['diagnosis/node.ts joint', 'i < live.length', 'i <= live.length'],
      ['diagnosis/node.ts settled', 'i < raw.length', 'i <= raw.length'],
      ['diagnosis/node.ts settled', 'k < kept', 'k <= kept'],
    ],
  },
  {
    why: 'past the last case nothing is kept',
    edits: [['diagnosis/node.ts answered', 'i < weights.length', 'i <= weights.length']],
  },
  {
    why: 'weights are set to one afterwards',
    edits: [
      [
        'diagnosis/node.ts answered',
        '(node.weights[i] ?? 0) * (likelihood[(node.live[i] ?? 0) * check.outcomes + outcome] ?? 0)',
        '(2 * ((node.weights[i] ?? 0) * (likelihood[(node.live[i] ?? 0) * check.outcomes + outcome] ?? 0)))',
      ],
      [
        'diagnosis/node.ts answered',
        '(node.weights[i] ?? 0) * (likelihood[(node.live[i] ?? 0) * check.outcomes + outcome] ?? 0)',
        '(0.5 * ((node.weights[i] ?? 0) * (likelihood[(node.live[i] ?? 0) * check.outcomes + outcome] ?? 0)))',
      ],
    ],
  },
  {
    why: 'past the last outcome there is no chance',
    edits: [
      ['diagnosis/node.ts mutualInformation', 'start < sums.length', 'start <= sums.length'],
      ['diagnosis/rollout.ts', 'o < check.outcomes', 'o <= check.outcomes'],
    ],
  },
  {
    why: 'a weight of exactly that, or of nothing, counts for nothing',
    edits: [['diagnosis/node.ts settled', 'weight <= enough', 'weight < enough']],
  },
  {
    why: 'a millionth of the weight counts for nothing',
    edits: [['diagnosis/node.ts completed', 'missing < 1e-6', 'missing <= 1e-6']],
  },
  {
    why: 'past the last outcome there is nothing to copy',
    edits: [['diagnosis/node.ts completed', 'o < check.outcomes', 'o <= check.outcomes']],
  },
  {
    why: 'past the last cause there is no chance',
    edits: [['diagnosis/repairs.ts chanceOf', 'm < remedy.mends.length', 'm <= remedy.mends.length']],
  },
  {
    why: 'twice every rate leaves their order',
    edits: [
      [
        'diagnosis/repairs.ts',
        'chanceOf(remedy, left) / Math.max(cost, 1e-9)',
        '(2 * (chanceOf(remedy, left) / Math.max(cost, 1e-9)))',
      ],
    ],
  },
  {
    why: 'past the last step there is none',
    edits: [
      ['diagnosis/repairs.ts brokenOff', 'steps.length - 1', 'steps.length + 1'],
      ['diagnosis/repairs.ts brokenOff', 'steps.length - 1', 'steps.length'],
    ],
  },
  {
    why: 'what stands in for a number that is never missing',
    edits: [['diagnosis/repairs.ts chanceOf', '-1', '1']],
  },
  {
    why: 'a way without any chance has no weight',
    edits: [['diagnosis/hypotheses.ts turns', 'chance > 0', 'chance >= 0']],
  },
  {
    why: 'an answer that is sure to exactly a billionth does not happen',
    edits: [['diagnosis/exact.ts crispCases', 'p > 1 - 1e-9', 'p >= 1 - 1e-9']],
  },
  {
    why: 'one state fewer before the search is left to the rollout',
    edits: [['diagnosis/exact.ts', 'this.least.size > mostStates', 'this.least.size >= mostStates']],
  },
  {
    why: 'a chance of failing of exactly that does not happen',
    edits: [
      ['diagnosis/exact.ts', '1 - chance < 1e-12', '1 - chance <= 1e-12'],
      ['diagnosis/rollout.ts', '1 - chance < 1e-9', '1 - chance <= 1e-9'],
    ],
  },
  {
    why: 'minutes of exactly that share do not happen',
    edits: [
      ['diagnosis/rollout.ts', 'reach * spare < this.trifle', 'reach * spare <= this.trifle'],
      [
        'diagnosis/rollout.ts',
        'reach * (order.minutes - this.known(node.causes, node.situation)) >= this.trifle',
        'reach * (order.minutes - this.known(node.causes, node.situation)) > this.trifle',
      ],
    ],
  },
  {
    why: 'minutes that are exactly the limit do not come under it',
    edits: [
      [
        'diagnosis/rollout.ts',
        'spent + (1 - chance) * this.known(after.causes, repair.situation) >= limit',
        'spent + (1 - chance) * this.known(after.causes, repair.situation) > limit',
      ],
    ],
  },
  {
    why: 'a rate of exactly a billionth does not happen',
    edits: [['diagnosis/rollout.ts', 'rate > noGain', 'rate >= noGain']],
  },
  {
    why: 'a check that tells exactly all there is no faster is no better',
    edits: [
      [
        'diagnosis/rollout.ts',
        'uncertainty / minutes < (best?.rate ?? noGain)',
        'uncertainty / minutes <= (best?.rate ?? noGain)',
      ],
    ],
  },
  {
    why: 'a bound or a size of exactly that does not happen',
    edits: [
      [
        'diagnosis/survey.ts',
        'reach(surveyed).most > leader - negligible',
        'reach(surveyed).most >= leader - negligible',
      ],
      ['diagnosis/survey.ts', 'reach.most < leader - negligible', 'reach.most <= leader - negligible'],
      [
        'diagnosis/survey.ts',
        'hypothesis.logPrior + most < leader - negligible',
        'hypothesis.logPrior + most <= leader - negligible',
      ],
      [
        'diagnosis/survey.ts',
        'size < Math.max(handful, thin * logs.length)',
        'size <= Math.max(handful, thin * logs.length)',
      ],
      ['diagnosis/survey.ts', 'size < handful', 'size <= handful'],
    ],
  },
  {
    why: 'past the last repair there is none',
    edits: [['diagnosis/exact.ts', 'r < this.repairs.length', 'r <= this.repairs.length']],
  },
  {
    why: 'past the last check there is none',
    edits: [['diagnosis/exact.ts', 'c < this.problem.checks.length', 'c <= this.problem.checks.length']],
  },
  {
    why: 'past the last case there is none',
    edits: [['diagnosis/exact.ts', 'i < this.cases.length', 'i <= this.cases.length']],
  },
  {
    why: 'of two checks that tell exactly as much a minute either may be asked',
    edits: [['diagnosis/rollout.ts', 'rate > (best?.rate ?? noGain)', 'rate >= (best?.rate ?? noGain)']],
  },
  {
    why: 'past the last fault there is none to be beside it',
    edits: [['diagnosis/hypotheses.ts pairs', 'f < model.faults.length', 'f <= model.faults.length']],
  },
  {
    why: 'a fault has one repair with itself, and is no pair',
    edits: [['diagnosis/hypotheses.ts pairs', 'f + 1', 'f']],
  },
  {
    why: 'how often the work stops to look for a key, not what comes of it',
    edits: [['diagnosis/survey.ts sliceOf', 'Math.max', 'Math.min']],
  },
  {
    why: 'past the last answer there is none to be odd',
    edits: [['diagnosis/belief.ts oddItems', 'i < items.length', 'i <= items.length']],
  },
  {
    why: 'past the last fault there is none to be compared with',
    edits: [['diagnosis/apart.ts apart', 'f < model.faults.length', 'f <= model.faults.length']],
  },
  {
    why: 'the power at which a round draws is found within 3 % instead of 6 %, which bears on where is drawn and not on what it weighs',
    edits: [['diagnosis/importance.ts highest', 'i < 4', 'i <= 4']],
  },
  {
    why: 'two ways that take the same minutes but for the last digits: either will do',
    edits: [['diagnosis/rollout.ts', 'best.minutes - noMinutes', 'best.minutes']],
  },
];
