import type { OverviewJob, OverviewView, Sentence, UnprovedView } from '../src/host';

const look = (words: string): Sentence => ({ level: 'look', words });
const stop = (words: string): Sentence => ({ level: 'stop', words });
const remark = (words: string): Sentence => ({ level: 'remark', words });

const job = (id: string, name: string, over: Partial<OverviewJob>): OverviewJob => ({
  id,
  name,
  place: '',
  demo: false,
  circuits: 8,
  done: 24,
  of: 24,
  progress: '24 of 24',
  stop: 0,
  look: 0,
  asked: 0,
  to_settle: 0,
  missing: 0,
  lacks: [],
  unproved: 0,
  unproved_words: [],
  in_doubt: 0,
  resolved: 0,
  recall: null,
  is_signed: false,
  signed: [remark('Not signed')],
  ...over,
});

/** Invented: one job with everything to say, one signed and in order, one not begun, and one that was signed before its tester failed. */
export const overview: OverviewView = {
  words: '4 jobs, 2 lack something, 2 with unproved readings',
  jobs: [
    job('j1', 'Harbour workshop', {
      place: 'Pier 4',
      demo: true,
      circuits: 61,
      done: 96,
      of: 300,
      progress: '96 of 300',
      stop: 1,
      look: 5,
      asked: 1,
      missing: 12,
      lacks: [stop('1 blocks a sign-off'), look('5 to look at'), look('1 new reading asked for'), look('12 required pairs have no reading'), remark('204 to do')],
      unproved: 9,
      unproved_words: [stop('1 barred'), look('2 in doubt'), look('6 lapsed')],
      in_doubt: 3,
      resolved: 1,
      recall: look('1 of 3 resolved'),
    }),
    job('j2', 'School annexe', {
      place: 'North Road',
      is_signed: true,
      signed: [remark('Signed as No. 1 by B. Reviewer, 25 Nov 2026, 16:05'), remark('Nothing came after sign-off')],
    }),
    job('j3', 'Boiler house', { done: 0, progress: '0 of 24', lacks: [remark('24 to do')] }),
    job('j4', 'Quay lighting', {
      unproved: 6,
      unproved_words: [look('6 in doubt')],
      in_doubt: 6,
      recall: look('0 of 6 resolved'),
      is_signed: true,
      signed: [remark('Signed as No. 2 by B. Reviewer, 20 Nov 2026, 09:10'), look('1 entry after sign-off'), look('Since then 6 readings have come into doubt')],
    }),
  ],
  testers: [
    { id: 't3', name: 'Tester C', serial: '1003', invented: false, state: stop('Tester C · barred'), last_day: null, day: null, due: look('A verification is due now: at some test voltage nothing on record proves it') },
    { id: 't2', name: 'Tester B', serial: '1002', invented: false, state: look('Tester B · lapsed 2 months ago'), last_day: '20 Sep 2026', day: '2026-09-20', due: look('Verification was due by 20 Sep 2026') },
    { id: 't1', name: 'Tester A', serial: '1001', invented: true, state: { level: 'done', words: 'Tester A · proved to 3 Mar 2027' }, last_day: '3 Mar 2027', day: '2027-03-03', due: { level: 'done', words: 'Next verification by 3 Mar 2027' } },
  ],
  recalls: [{ tester: 't3', name: 'Tester C', serial: '1003', jobs: 2, all: 9, resolved: 1, said: look('1 of 9 resolved, in 2 jobs') }],
};

export const unproved: UnprovedView = {
  words: '9 readings whose tester was not proved, in 1 job',
  jobs: [
    {
      job: 'j1',
      name: 'Harbour workshop',
      place: 'Pier 4',
      count: 9,
      words: '9 readings',
      groups: [
        {
          tester: 't3',
          name: 'Tester C, serial number 1003',
          state: 'in_doubt',
          count: 3,
          words: '3 readings',
          said: look('Tester C: in doubt, found failed on 20 Nov 2026'),
          todo: 'Work through its recall list, or test again with a proved tester',
          places: [{ board: 'b2', circuit: 'c4', words: 'DB-2 · 4 Sockets, east wall · L–N, L–PE, N–PE' }],
        },
        {
          tester: 't2',
          name: 'Tester B, serial number 1002',
          state: 'lapsed',
          count: 6,
          words: '6 readings',
          said: look('Tester B: verification lapsed on 20 Sep 2026, before this reading'),
          todo: 'Verify the tester, or test again with a proved one',
          places: [
            { board: 'b2', circuit: 'c5', words: 'DB-2 · 5 Sockets, west wall · L–N, L–PE, N–PE' },
            { board: 'b2', circuit: 'c6', words: 'DB-2 · 6 Oven · L–N, L–PE, N–PE' },
          ],
        },
      ],
    },
  ],
};
