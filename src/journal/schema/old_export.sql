-- Everything that the tables of versions 1 to 7 hold, as an export of the first form.
SELECT json_object(
    'schema', 'counterpoise.journal/1',
    'sessions', json((SELECT json_group_array(json_object(
        'id', s.id,
        'form', NULL,
        'start', json_object('begun', s.begun, 'title', s.title, 'digest', s.digest, 'seed', s.seed,
            'seed_given', json(iif(s.seed_given, 'true', 'false')), 'method', s.method, 'voice', s.voice,
            'device', s.device, 'sets_planned', s.sets_planned),
        'end', json((SELECT json_object('at', ended, 'why', why) FROM session_ends WHERE session = s.id)),
        'tryout', json((SELECT json_object('watched_by', watched_by, 'partner', partner, 'seen',
            json((SELECT json_group_array(json_object('what', what, 'words', words) ORDER BY nth)
                FROM seen WHERE session = s.id))) FROM tryouts WHERE session = s.id)),
        'decided', json((SELECT json_object('decision', decision, 'gentler', json(iif(gentler, 'true', 'false')),
            'first_set', first_set, 'sets_whole', sets_whole, 'seen_before_ms', seen_before_ms,
            'reasons', json((SELECT json_group_array(reason ORDER BY nth) FROM decision_reasons WHERE session = s.id)),
            'given', json((SELECT json_group_array(json_object('drill', drill, 'form', form, 'step', step) ORDER BY nth)
                FROM given_steps WHERE session = s.id))) FROM decisions WHERE session = s.id)),
        'ready', json((SELECT json_group_array(json_object('item', item, 'is_true', json(iif(is_true, 'true', 'false')))
            ORDER BY nth) FROM readiness WHERE session = s.id)),
        'answers', json((SELECT json_group_array(json_object('place', place, 'set', set_number, 'question', question,
            'answer', answer) ORDER BY place) FROM answers WHERE session = s.id)),
        'sets', json((SELECT json_group_array(json_object(
            'start', json_object('number', n.number, 'begun', n.begun, 'drill', n.drill, 'form', n.form,
                'step', n.step, 'stance', n.stance, 'side', n.side, 'surface', n.surface, 'support', n.support,
                'vision', n.vision, 'channel', n.channel, 'facing', n.facing, 'second_task', n.second_task,
                'work_ms', n.work_ms, 'recover_ms', n.recover_ms, 'rest_ms', n.rest_ms),
            'end', json((SELECT json_object('at', ended, 'worked_ms', worked_ms, 'why', why) FROM set_ends
                WHERE session = s.id AND set_number = n.number)),
            'plans', json((SELECT json_group_array(json_object('plan', p.plan, 'paused_at_ms', p.paused_at_ms, 'cues',
                json((SELECT json_group_array(json_object('cue', cue, 'at_ms', at_ms, 'gap_ms', gap_ms,
                    'blank', json(iif(blank, 'true', 'false')), 'action', action, 'direction', direction,
                    'phrase', phrase, 'until_ms', until_ms, 'strength', strength, 'ball', ball, 'tell', tell,
                    'practice', json(iif(practice, 'true', 'false'))) ORDER BY cue) FROM cues
                    WHERE session = s.id AND set_number = n.number AND plan = p.plan))) ORDER BY p.plan)
                FROM plans p WHERE p.session = s.id AND p.set_number = n.number)),
            'delivered', json((SELECT json_group_array(json_object('cue', cue, 'wanted_frame', wanted_frame,
                'began_frame', began_frame, 'frames_per_second', frames_per_second, 'heard_ms', heard_ms,
                'shown_ms', shown_ms, 'asked_ms', asked_ms) ORDER BY cue) FROM deliveries
                WHERE session = s.id AND set_number = n.number)),
            'responses', json((SELECT json_group_array(json_object('cue', cue, 'response', response) ORDER BY cue)
                FROM responses WHERE session = s.id AND set_number = n.number)),
            'disturbed', json((SELECT json_group_array(json_object('place', place, 'at_ms', at_ms, 'how', how)
                ORDER BY place) FROM disturbances WHERE session = s.id AND set_number = n.number))
            ) ORDER BY n.number) FROM sets n WHERE n.session = s.id)),
        'left_out', json((SELECT json_group_array(json_object('set', set_number, 'at', at, 'why', why)
            ORDER BY set_number) FROM left_out WHERE session = s.id)),
        'mishaps', json((SELECT json_group_array(json_object('place', place, 'set', set_number, 'at_ms', at_ms,
            'what', what, 'cue', cue) ORDER BY place) FROM mishaps WHERE session = s.id)),
        'advised', json((SELECT json_group_array(json_object('place', place, 'set', set_number, 'advice', advice)
            ORDER BY place) FROM advice WHERE session = s.id)),
        'routines', json((SELECT json_group_array(json_object('part', part, 'at', at, 'how', how) ORDER BY at_ms, part)
            FROM routines WHERE session = s.id)),
        'course', json((SELECT json_group_array(patch ORDER BY nth) FROM courses WHERE session = s.id))
        ) ORDER BY s.begun_ms, s.id) FROM sessions s)),
    'changes', json((SELECT json_group_array(json_object('at', at, 'what', what, 'digest', digest)
        ORDER BY at_ms, what, digest) FROM changes)),
    'suitability', json((SELECT json_group_array(json(o) ORDER BY at_ms) FROM (SELECT at_ms, json_object('at', at,
        'partner', json(iif(partner, 'true', 'false')), 'answers', json_group_array(json_object('topic', topic,
        'answer', answer) ORDER BY topic)) AS o FROM suitability GROUP BY at_ms))),
    'clearances', json((SELECT json_group_array(json_object('at', at, 'who', who, 'reason', reason, 'lifted',
        json((SELECT json_group_array(json_object('locked_by', locked_by, 'what', what) ORDER BY nth) FROM lifted l
            WHERE l.at_ms = c.at_ms AND l.who = c.who))) ORDER BY at_ms, who) FROM clearances c)),
    'tests', json((SELECT json_group_array(json_object('at', at, 'test', test, 'value', value, 'age', age, 'sex', sex,
        'company', company, 'by_whom', by_whom) ORDER BY at_ms, test) FROM balance_tests)),
    'corrections', json((SELECT json_group_array(json_object('at', at, 'session', session, 'what', what,
        'set', set_number, 'question', question, 'cue', cue, 'right', right_is, 'reason', reason)
        ORDER BY at_ms, session) FROM corrections))
)
